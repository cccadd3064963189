"""Gas properties against CoolProp over 280 to 340 K, and the rules for mixtures against what is known of them."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kit.physics.gas import gases
from kit.physics.gas.gasdata import GASES
from tests.coolprop import PropsSI

FLUID = {"air": "Air", "CO2": "CO2", "argon": "Argon", "nitrogen": "Nitrogen", "helium": "Helium"}
KELVIN = (280, 300, 320, 340)
# (function, CoolProp's name, allowed relative difference): what the project promises of its published correlations.
PROPERTIES = [
    (gases.density_kg_m3, "D", 0.005),
    (gases.heat_capacity_j_kg_k, "C", 0.01),
    (gases.conductivity_w_m_k, "L", 0.02),
    (gases.viscosity_pa_s, "V", 0.02),
    (gases.expansion_per_k, "isobaric_expansion_coefficient", 0.005),
    (gases.prandtl_number, "PRANDTL", 0.025),
]
HALF = {"CO2": 0.5, "air": 0.5}


@pytest.mark.parametrize("gas", GASES)
@pytest.mark.parametrize("function, name, allowed", PROPERTIES, ids=lambda each: getattr(each, "__name__", ""))
def test_pure_gases_agree_with_coolprop(gas, function, name, allowed):
    expected = [PropsSI(name, "T", kelvin, "P", 101_325, FLUID[gas]) for kelvin in KELVIN]
    assert function(gas, np.array(KELVIN) - 273.15) == pytest.approx(expected, rel=allowed)


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9])
def test_the_density_and_heat_capacity_of_a_mixture_agree_with_coolprop(share):
    """CO2 in nitrogen, whose mixture CoolProp knows (GERG-2008)."""
    mixed, fluid = {"CO2": share, "nitrogen": 1 - share}, f"CO2[{share}]&Nitrogen[{1 - share}]"
    assert gases.density_kg_m3(mixed, 26.85) == pytest.approx(PropsSI("D", "T", 300, "P", 101_325, fluid), rel=0.005)
    assert gases.heat_capacity_j_kg_k(mixed, 26.85) == pytest.approx(PropsSI("C", "T", 300, "P", 101_325, fluid), rel=0.01)


def test_half_co2_half_air_by_wilke_and_wassiljewa():
    """From CoolProp's pure values at 300 K by the same rules, computed apart: 0.02083 W/m/K, 16.493 µPa s."""
    assert gases.conductivity_w_m_k(HALF, 26.85) == pytest.approx(0.02083, rel=0.02)
    assert gases.viscosity_pa_s(HALF, 26.85) == pytest.approx(16.493e-6, rel=0.02)


@given(st.sampled_from(GASES), st.floats(0.01, 0.99), st.floats(7, 67))
def test_a_gas_mixed_with_itself_is_itself(gas, share, temperature_c):
    other = next(each for each in GASES if each != gas)
    for function in (gases.density_kg_m3, gases.heat_capacity_j_kg_k, gases.viscosity_pa_s, gases.conductivity_w_m_k):
        assert function({gas: 1.0, other: 0.0}, temperature_c) == pytest.approx(function(gas, temperature_c))


def test_more_co2_is_denser_and_conducts_less():
    share = np.linspace(0, 1, 21)
    mixed = {"CO2": share, "air": 1 - share}
    assert np.all(np.diff(gases.density_kg_m3(mixed, 25)) > 0)
    assert np.all(np.diff(gases.conductivity_w_m_k(mixed, 25)) < 0)
