"""Gas from acid and soda: laws that hold whatever the amounts."""

import chemicals
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kit.physics.gas import dose

grams = st.floats(0, 1000)
acids = st.sampled_from(sorted(dose.ACIDIC_HYDROGENS))


@given(grams, grams, acids)
def test_carbon_is_kept_no_more_gas_than_soda(soda_g, acid_g, acid):
    assert dose.co2_mol(soda_g, acid_g, acid) <= soda_g / 84.0066 * (1 + 1e-5)


@given(grams, grams, acids)
def test_doubling_both_doubles_the_gas(soda_g, acid_g, acid):
    assert dose.co2_mol(2 * soda_g, 2 * acid_g, acid) == pytest.approx(2 * dose.co2_mol(soda_g, acid_g, acid))


@given(st.floats(0.1, 1000), acids)
def test_the_acid_needed_leaves_neither_over(soda_g, acid):
    assert dose.limiting_reagent(soda_g, dose.acid_needed_g(soda_g, acid), acid) == "neither"


# Acid per gram of bicarbonate (g), and mL of 5 % vinegar: stoichiometry with the molar masses of chemicals 1.5.2, computed.
@pytest.mark.parametrize(
    "acid, expected", [("citric", 0.7623), ("citric monohydrate", 0.8338), ("tartaric", 0.8933), ("acetic", 14.30 * 0.05)]
)
def test_acid_for_a_gram_of_soda(acid, expected):
    assert dose.acid_needed_g(1, acid) == pytest.approx(expected, abs=2.5e-4)


def test_the_limiting_reagent_is_named_for_each_dose():
    assert dose.limiting_reagent([5, 10, 10], [5, 5, dose.acid_needed_g(10)]).tolist() == ["bicarbonate", "citric", "neither"]


def test_four_tablets_are_a_range():
    """1.5 to 2.2 L at 25 °C: 1.9 g of bicarbonate and 1.0 g of citric acid a tablet (from memory; makers differ)."""
    least, most = (dose.gas_volume_l(moles) for moles in dose.tablets_mol(4))
    assert (least, most) == (pytest.approx(1.528, abs=0.001), pytest.approx(2.213, abs=0.001))
    assert least == pytest.approx(4 * 3 / chemicals.MW("77-92-9") * 24.4654, rel=1e-4)


@given(st.floats(1, 39))
def test_cold_water_keeps_more(water_c):
    assert dose.dissolved_mol(100, water_c) > dose.dissolved_mol(100, water_c + 1)


def test_water_keeps_what_henry_allows():
    """100 mL at 25 °C: 0.0033 mol under CO2 at 1 atm less the vapour (Weiss 1974, computed); Sander's slope, 2400 K, within 3 %."""
    assert dose.dissolved_mol(100, 25) == pytest.approx(0.00329, abs=5e-6)
    for water_c, sander in ((10, 0.0523), (20, 0.0390), (25, 0.0340)):
        assert dose.solubility_mol_l_atm(water_c) == pytest.approx(sander, rel=0.03)


def test_the_vapour_takes_its_room():
    """Water vapour at 25 °C has 3,169.9 Pa (IAPWS-95 by CoolProp), so gas over water fills 101,325 / (101,325 - 3,169.9) as much."""
    assert dose.wet_gas_volume_l(1) / dose.gas_volume_l(1) == pytest.approx(101_325 / (101_325 - 3_169.9), rel=1e-5)


def test_an_exact_mix_leaves_up_to_a_tenth_and_a_surplus_nothing():
    """5 to 10 % at the exact mix (equilibrium, estimated): citric 0.7623 g for each gram of bicarbonate (stoichiometry)."""
    assert dose.least_reacted(5, 5 * 0.7623) == pytest.approx(0.9, abs=1e-4)
    assert dose.least_reacted(5, 5) == 1 == dose.least_reacted(10, 5) and dose.least_reacted(0, 0) == 1
