"""Units as people write them, and readings brought to °C."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kit.intake.forms.numbers import name_and_unit, names_and_units, to_celsius, unit_of


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
    "headers, units",
    [
        (("Temp (C)", "Temp (D)"), ("", "")),
        (("Temp (A)", "Temp (B)", "Temp (C)"), ("", "", "")),
        (("Temp (1)", "Temp (2)"), ("", "")),
        (("Temp (F)", "Temp (G)"), ("", "")),
        (("Temp (K)", "Temp (L)"), ("", "")),
        (("Temp [C]", "Temp [D]"), ("", "")),
        (("T_C", "T_D"), ("", "")),
        (("T/c", "T/d"), ("", "")),
        (("TempC", "TempD"), ("", "")),
        (("Jar (J)", "Jar (K)"), ("", "")),
        (("Beaker (C) (°C)", "Beaker (D) (°C)"), ("°C", "°C")),
        (("Beaker C [K]", "Beaker D [K]"), ("K", "K")),
        (("Temp (C)", "Temp (F)"), ("°C", "°F")),
        (("Temp (C)", "Temp (F)", "Temp (K)"), ("°C", "°F", "K")),
        (("Probe (C)", "Probe (V)"), ("°C", "V")),
        (("Inside (C)", "Outside (C)"), ("°C", "°C")),
        (("Time (h)", "Time (s)", "T1 (C)", "T2 (C)"), ("h", "s", "°C", "°C")),
        (("Temp (C)", "RH (%)"), ("°C", "%")),
        (("Temp (C)", "Temp (C)"), ("°C", "°C")),
    ],
)
def test_a_letter_is_a_unit_only_where_all_its_fellows_are(headers, units):
    named, _ = names_and_units(headers)
    assert tuple(unit for _, unit in named) == units


def test_a_letter_that_names_stays_in_the_name_and_is_said():
    assert names_and_units(["Temp (C)", "Temp (D)", "Beaker (C) (°C)", "Beaker (D) (°C)"]) == (
        [("Temp (C)", ""), ("Temp (D)", ""), ("Beaker (C)", "°C"), ("Beaker (D)", "°C")],
        ("Letters that tell headers apart are names, not units: 'Temp (C)', 'Temp (D)' and 'Beaker (D) (°C)'.",),
    )
    assert names_and_units(["T1 (A)", "T1 (B)"])[1] == ()


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
