"""The mouth: one flow for gas and heat, its size by the published correlation, and the weight that shuts it."""

import numpy as np
import pytest
from scipy.constants import g

from kit.physics.heat.mouth import AIR_J_M3_K, diffusion_m3_s, exchange_m3_s, film_w_per_k, flip_share, heavier_by, lighter_by
from tests.coolprop import PropsSI


def coolprop_density(gas, celsius):
    return PropsSI("D", "T", celsius + 273.15, "P", 101325, gas)


def test_the_exchange_is_that_of_the_correlation():
    """Epstein 1988: Q = 0.055 (g Δρ/ρ D⁵)^½ (number from memory); Δρ/ρ of air 8 K over a room at 21 °C by CoolProp, worked by hand."""
    room, warm = coolprop_density("Air", 21), coolprop_density("Air", 29)
    assert exchange_m3_s(lighter_by(8.0), 0.08) == pytest.approx(0.055 * (g * (1 - warm / room) * 0.08**5) ** 0.5, rel=2e-3)


@pytest.mark.parametrize("width_cm, w_per_k", [(6, 0.030), (7, 0.044), (8, 0.061), (10, 0.107)])
def test_what_a_mouth_passes_at_8_k(width_cm, w_per_k):
    """0.03, 0.04, 0.06, 0.11 W/K: the correlation with ρ cp of room air by CoolProp, computed."""
    assert AIR_J_M3_K * exchange_m3_s(lighter_by(8.0), width_cm / 100) == pytest.approx(w_per_k, abs=0.001)


def test_room_air_holds_so_much_heat():
    heat = PropsSI("D", "T", 294.15, "P", 101325, "Air") * PropsSI("C", "T", 294.15, "P", 101325, "Air")
    assert AIR_J_M3_K == pytest.approx(heat, rel=1e-3)


def test_a_gas_heavier_than_the_room_shuts_the_mouth():
    assert exchange_m3_s(lighter_by(8.0, 0.5, heavier_by("CO2")), 0.1) == 0


@pytest.mark.parametrize("gas, name", [("CO2", "CO2"), ("argon", "Argon")])
@pytest.mark.parametrize("rise_k", [4.0, 8.0, 15.0, 20.0])
def test_at_the_flip_the_gas_weighs_what_room_air_weighs(gas, name, rise_k):
    """CoolProp's densities of the pure gases, mixed by volume: within 0.2 % of the room's air."""
    share = flip_share(rise_k, gas)
    inside = share * coolprop_density(name, 21 + rise_k) + (1 - share) * coolprop_density("Air", 21 + rise_k)
    assert inside == pytest.approx(coolprop_density("Air", 21), rel=0.002)


def test_nothing_as_light_as_air_ever_shuts_it():
    assert flip_share(8.0, "air") == 1 and flip_share(8.0, "nitrogen") == 1


def test_diffusion_is_the_slowest_way_out():
    """1.5 L, 19 cm deep: V π² D / (4 L²) with D = 0.157 cm²/s (Fuller's method), worked by hand."""
    assert diffusion_m3_s("CO2", 1.5, 0.19) == pytest.approx(1.5e-3 * np.pi**2 * 0.157e-4 / (4 * 0.19**2), rel=0.01)


def test_a_film_passes_about_a_hundredth_of_a_watt_per_kelvin():
    assert film_w_per_k(np.array([0.07, 0.10])) == pytest.approx([0.01, 0.02], abs=0.0005)
