"""Every constant against a library that carries it."""

import chemicals
import pytest
import scipy.constants as known

from kit.physics import constants

CODATA = {
    "GAS_CONSTANT": known.R,
    "PLANCK_J_S": known.h,
    "LIGHT_SPEED_M_S": known.c,
    "BOLTZMANN_J_K": known.k,
    "STEFAN_BOLTZMANN": known.sigma,
    "WIEN_UM_K": known.Wien * 1e6,
    "GRAVITY_M_S2": known.g,
    "ZERO_C_K": known.zero_Celsius,
    "STANDARD_PRESSURE_PA": known.atm,
}
CAS = {
    "bicarbonate": "144-55-8", "citric": "77-92-9", "tartaric": "133-37-9", "acetic": "64-19-7",
    "CO2": "124-38-9", "nitrogen": "7727-37-9", "argon": "7440-37-1", "helium": "7440-59-7",
}  # fmt: skip


@pytest.mark.parametrize("name, value", CODATA.items(), ids=CODATA)
def test_constants_are_those_of_codata(name, value):
    assert getattr(constants, name) == pytest.approx(value, rel=1e-9)


@pytest.mark.parametrize("name, number", CAS.items(), ids=CAS)
def test_molar_masses_are_those_of_the_elements(name, number):
    assert constants.MOLAR_MASS_G[name] == pytest.approx(chemicals.MW(number), rel=1e-6)


def test_the_monohydrate_holds_one_water():
    water = constants.MOLAR_MASS_G["citric monohydrate"] - constants.MOLAR_MASS_G["citric"]
    assert water == pytest.approx(chemicals.MW("7732-18-5"), rel=1e-5)


def test_the_molar_mass_of_air_is_that_of_its_parts():
    from CoolProp.CoolProp import PropsSI

    assert constants.MOLAR_MASS_G["air"] == pytest.approx(1000 * PropsSI("M", "Air"), rel=1e-6)
