"""What a wanted share takes, and back again."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kit.analysis.planning.gasneed import gas_needed
from kit.faults import Fault
from kit.physics.gas import dose, filling


@given(st.floats(1, 99), st.floats(0.2, 10), st.floats(0.01, 3))
def test_the_gas_needed_gives_the_share(share, vessel_l, headspace_l):
    need = gas_needed(share, vessel_l, headspace_l=headspace_l)
    assert 100 * filling.layered_share(need.litres.low, vessel_l) == pytest.approx(share)
    assert 100 * filling.headspace_share(need.litres.high, vessel_l, headspace_l) == pytest.approx(share)


def test_grams_match_and_leave_nothing_over():
    need = gas_needed(80)
    assert dose.limiting_reagent(need.bicarbonate_g.high, need.acid_g.high) == "neither"
    assert dose.gas_volume_l(dose.co2_mol(need.bicarbonate_g.low, need.acid_g.low), 20) == pytest.approx(need.litres.low)
    assert str(need) == "80 % of CO2 in 1.5 L takes 1.2 to 2.7 L: 4.2 to 11 g of bicarbonate and 3.2 to 8.2 g of citric acid."


def test_ninety_five_percent_by_mixing_takes_three_vessels():
    """ln 20 = 2.9957 (any table), with no headspace and air without CO2 to begin with, 0.04 % of it here."""
    assert gas_needed(95, 1.0, headspace_l=0).litres.high == pytest.approx(2.9957, abs=0.001)


def test_a_full_vessel_cannot_be_had_by_mixing():
    with pytest.raises(Fault) as caught:
        gas_needed(100)
    assert str(caught.value) == "The wanted share can't be 1 here. Give 0 to 0.9999. While mixing, the air never leaves completely."
