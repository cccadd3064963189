"""Values that can't be are refused in words that name them."""

import numpy as np
import pytest

from kit.faults import Fault
from kit.physics import planet
from kit.physics.checking import bounded
from kit.physics.gas import air, dose, filling, gases, room
from kit.physics.heat import convection
from kit.physics.light import absorption, radiation

REFUSED = [
    (lambda: radiation.exitance_w_m2(-5), "The temperature can't be -5 K here. Give 1 to 100,000 K. Kelvin begin at 0, where ice melts at 273.15."),
    (lambda: filling.mixed_share(1, 1.5, 1.2), "The share at the start can't be 1.2 here. Give 0 to 0.9999."),
    (lambda: filling.gas_for_mixed_share_l(1.0, 1.5), "The wanted share can't be 1 here. Give 0 to 0.9999. While mixing, the air never leaves completely."),
    (lambda: dose.co2_mol(-3, 5), "The bicarbonate can't be -3 g here. Give 0 g or more."),
    (lambda: dose.co2_mol(5, [1, 2, -4]), "The acid can't be -4 g here. Give 0 g or more."),
    (lambda: dose.co2_mol(5, 5, "malic"), "The acid 'malic' is not known. Known: citric, citric monohydrate, tartaric, acetic."),
    (lambda: dose.gas_volume_l(float("nan")), "The amount of gas can't be nan mol here. Give 0 mol or more."),
    (lambda: air.boiling_point_c(1013), "The pressure can't be 1,013 Pa here. Give 20,000 to 200,000 Pa. If your barometer shows hPa, multiply by 100."),
    (lambda: air.standard_pressure_pa(20_000), "The altitude can't be 20,000 m here. Give -500 to 11,000 m. Give metres above sea level."),
    (lambda: gases.density_kg_m3("neon", 20), "The gas 'neon' is not known. Known: air, CO2, argon, nitrogen, helium."),
    (lambda: gases.density_kg_m3({"CO2": 0.7, "air": 0.7}, 20), "The shares of the gases add up to 1.4. Change one, so that they add up to 1."),
    (lambda: gases.density_kg_m3({"CO2": 1.2, "air": -0.2}, 20), "The share of CO2 can't be 1.2 here. Give 0 to 1."),
    (lambda: gases.density_kg_m3("CO2", -300), "The temperature can't be -300 °C here. Give -50 to 200 °C."),
    (lambda: gases.density_kg_m3("CO2", "warm"), "The temperature must be a number. This was given: 'warm'."),
    (lambda: convection.diffusivity_m2_s({"CO2": 1.0}), "The gas {'CO2': 1.0} is not known. Known: CO2, air, nitrogen, argon, helium."),
    (lambda: radiation.blackbody_share(300, 10, 5), "The width of the band can't be -5 µm here. Give 0 µm or more. Name the shorter wavelength first."),
    (lambda: radiation.passed_share(300, "wood"), f"The window 'wood' is not known. Known: {', '.join(radiation.WINDOWS_UM)}."),
    (lambda: absorption.exchange_w_m2_k(1.3), "The emissivity can't be 1.3 here. Give 0 to 1."),
    (lambda: planet.bare_rock_k(1361, 1.3), "The reflected share can't be 1.3 here. Give 0 to 1."),
    (lambda: planet.forcing_w_m2(0), "The CO2 can't be 0 ppm here. Give 150 to 1,000 ppm. The formula was fitted to the CO2 of the past and the near future."),
    (lambda: room.room_added_ppm(5, 0), "The room can't be 0 m3 here. Give 1 m3 or more."),
]


@pytest.mark.parametrize("ask, message", REFUSED, ids=[message for _, message in REFUSED])
def test_what_cannot_be_is_refused_by_name_and_number(ask, message):
    with pytest.raises(Fault) as caught:
        ask()
    assert str(caught.value) == message
    assert len(message.split()) <= 40


def test_what_can_be_passes_unchanged():
    assert bounded([0, 0.5, 1], "The share", 0, 1).tolist() == [0, 0.5, 1]
    assert bounded(np.inf, "The wavelength", 0, np.inf) == np.inf
