"""A letter that tells headers apart: a unit, or the name of a vessel?"""

import pytest

from kit.intake.forms.letters import names_and_units


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
