"""Units as people write them, and readings brought to °C."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kit.intake.forms.numbers import name_and_unit, to_celsius, unit_of


@pytest.mark.parametrize(
    "header, name, unit",
    [
        ("treated_degC", "treated", "°C"),
        ("Treated (°C)", "Treated", "°C"),
        ("Treated [deg C]", "Treated", "°C"),
        ("treated / °C", "treated", "°C"),
        ("treated in degC", "treated", "°C"),
        ("Treated, ºC", "Treated", "°C"),
        ("Treated ˚C", "Treated", "°C"),
        ("Treated (℃)", "Treated", "°C"),
        ("T1_F", "T1", "°F"),
        ("Probe 1 (°F) upper", "Probe 1 upper", "°F"),
        ("Control [K]", "Control", "K"),
        ("Control (øC)", "Control", "°C"),
        ("CO2 (ppm)", "CO2", "ppm"),
        ("CO2 (vol%)", "CO2", "%"),
        ("Light (lux)", "Light", "lx"),
        ("elapsed_s", "elapsed", "s"),
        ("Zeit (min)", "Zeit", "min"),
        ("time (h:mm:ss)", "time", "h:mm:ss"),
        ("Treated vessel", "Treated vessel", ""),
        ("Probe (new)", "Probe (new)", ""),
        ("Vessel (CO2) [°C]", "Vessel (CO2)", "°C"),
        ("Vessel (A) [°C]", "Vessel (A)", "°C"),
        ("Temp (A)", "Temp (A)", ""),
        ("P (hPa) (old)", "P (old)", "hpa"),
        ("", "", ""),
        ("°C", "°C", "°C"),
        ("Irradiance (W/m²)", "Irradiance", "W/m²"),
        ("Treated\n(°C)", "Treated", "°C"),
    ],
)
def test_a_header_is_a_name_and_a_unit(header, name, unit):
    assert name_and_unit(header) == (name, unit)


@pytest.mark.parametrize(
    "text, unit", [("Minutes", "min"), ("sec.", "s"), ("deg C", "°C"), ("Kelvin", "K"), ("HH:MM", "h:mm"), ("metre", "")]
)
def test_a_unit_by_any_of_its_names(text, unit):
    assert unit_of(text) == unit


@given(st.lists(st.floats(-200, 200), min_size=1, max_size=20))
def test_all_three_scales_tell_the_same_temperature(celsius):
    celsius = np.array(celsius)
    assert to_celsius(celsius * 1.8 + 32, "°F") == pytest.approx(celsius, abs=1e-9)
    assert to_celsius(celsius + 273.15, "K") == pytest.approx(celsius, abs=1e-8)
