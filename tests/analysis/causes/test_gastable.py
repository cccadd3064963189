"""Gases beside air."""

import pytest

from kit.analysis.causes.gastable import compare_gases

# Density kg/m3, heat by volume J/m3/K, least and most heat carried over air's: CoolProp 8.0.0 at 300 K and 101,325 Pa, computed.
TABLE = {
    "air": (1.1770, 1184.5, 1, 1),
    "CO2": (1.7966, 1531.9, 0.636, 1.000),
    "argon": (1.6238, 846.9, 0.676, 0.716),
    "nitrogen": (1.1382, 1185.2, 0.984, 0.990),
    "helium": (0.1625, 844.0, 1.47, 5.91),
}


@pytest.mark.parametrize("row", compare_gases().rows, ids=lambda row: row.name)
def test_the_table_is_that_of_coolprop(row):
    density, heat, least, most = TABLE[row.name]
    assert row.density_kg_m3 == pytest.approx(density, rel=0.005)
    assert row.heat_j_m3_k == pytest.approx(heat, rel=0.01)
    assert (row.carries.low, row.carries.high) == pytest.approx((least, most), rel=0.012)


def test_a_mixture_has_its_own_row():
    row = compare_gases([{"CO2": 0.5, "air": 0.5}]).rows[0]
    assert row.name == "50 % CO2 + 50 % air"
    assert (row.carries.low, row.flowing.low) == (pytest.approx(0.789, rel=0.01), pytest.approx(0.945, rel=0.01))


def test_the_sentence_gives_ranges():
    assert str(compare_gases(["CO2", "argon"])) == (
        "Heat carried to the walls, from lying still to strong flow, air = 1: CO2 0.64 to 1.0; argon 0.68 to 0.72."
    )
