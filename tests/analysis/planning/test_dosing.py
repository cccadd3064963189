"""A dose of gas: ranges that hold the published values, and refusals that say what is missing."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kit.analysis.planning.dosing import gas_dose
from kit.faults import Fault


def test_four_tablets_make_one_and_a_half_to_two_litres():
    """1.5 to 2.2 L at 25 °C before the water takes its part (stoichiometry; tablets from memory), 0.08 L at most (Weiss 1974)."""
    dose = gas_dose(tablets=4, room_c=25, water_c=25)
    assert dose.litres.high == pytest.approx(2.213, abs=0.001)
    assert dose.litres.low == pytest.approx(1.528 - 0.0805, abs=0.001)
    assert dose.dissolved_l == pytest.approx(0.08, abs=0.002)


def test_soda_and_acid_by_weight_and_by_vinegar():
    """Litres at 25 °C from stoichiometry with chemicals 1.5.2, computed: 1.4562 and 2.0370."""
    assert gas_dose(bicarbonate_g=5, acid_g=5, room_c=25).litres.high == pytest.approx(1.4562, rel=1e-4)
    vinegar = gas_dose(bicarbonate_g=10, vinegar_ml=100, room_c=25)
    assert (vinegar.litres.high, vinegar.limiting) == (pytest.approx(2.0370, rel=1e-4), "acetic")


def test_the_sentence_tells_gas_and_share():
    assert str(gas_dose(tablets=4)) == (
        "1.4 to 2.2 L of CO2 from 4 tablets. Share in a vessel of 1.5 L: 53 to 76 % if it mixes, 94 to 98 % if it fills from below."
    )


@given(st.floats(0.5, 12), st.floats(0.2, 10), st.floats(0, 3))
def test_every_way_of_filling_lies_in_the_whole_range(tablets, vessel_l, headspace_l):
    dose = gas_dose(tablets=tablets, vessel_l=vessel_l, headspace_l=headspace_l)
    for part in (dose.share_mixed, dose.share_from_below):
        assert dose.share.low - 1e-9 <= part.low <= part.high <= dose.share.high + 1e-9
    assert 0 <= dose.share.low and dose.share.high <= 100


def test_shares_grow_while_the_gas_comes_and_end_at_the_stated_range():
    dose = gas_dose(tablets=4)
    for key, share in (("mixed", dose.share_mixed), ("from_below", dose.share_from_below)):
        low, high = dose.curve[key]
        assert np.all(np.diff(low) >= 0) and np.all(low <= high + 1e-9)
        assert (low[-1], high[-1]) == pytest.approx((share.low, share.high), rel=0.002)


def test_the_water_never_keeps_more_gas_than_there_is():
    dose = gas_dose(bicarbonate_g=0.1, acid_g=0.1, water_ml=5000)
    assert dose.litres.low == 0 and dose.share_mixed.low == pytest.approx(0.042, abs=0.001)


def test_every_dose_carries_the_cautions():
    codes = [caution.code for caution in gas_dose(tablets=4).cautions]
    assert codes == ["ventilate", "way out", "eyes", "tablets", "rules"]


def test_a_crowd_in_a_small_room_is_warned_with_the_limit():
    caution = gas_dose(tablets=4, groups=90, room_m3=30).cautions[0]
    assert str(caution) == (
        "Without airing, 90 groups could add 6529 ppm. The limit of 5,000 ppm (mean of 8 hours) is by OSHA (29 CFR 1910.1000), NIOSH, EU directive 2006/15/EC."
    )


MISSING = "Say what makes the gas: tablets=4, or bicarbonate_g=5 with acid_g=5, or bicarbonate_g=10 with vinegar_ml=100."
KNOWN = "vessel_l, headspace_l, water_ml, water_c, room_c, pressure_pa, room_m3, groups"


@pytest.mark.parametrize(
    "given, message",
    [
        ({"bicarbonate_g": 5}, MISSING),
        ({"tablets": 4, "acid_g": 5}, MISSING),
        ({"tablets": -1}, "The number of tablets can't be -1 here. Give 0 or more."),
        ({"tablets": 4, "vessel": 2}, f"gas_dose knows no 'vessel'. It knows: {KNOWN}."),
        ({"tablets": 4, "vessel_l": 0}, "The vessel can't be 0 L here. Give 0.001 L or more."),
        ({"tablets": 4, "pressure_pa": 1013}, "The pressure can't be 1,013 Pa here. Give 20,000 to 200,000 Pa. If your barometer shows hPa, multiply by 100."),
    ],
)
def test_what_cannot_be_is_refused(given, message):
    with pytest.raises(Fault) as caught:
        gas_dose(**given)
    assert str(caught.value) == message
