"""Rehearsed runs: the same call gives the same, and the numbers follow what they should follow."""

import numpy as np
import pytest

from kit.statistics.effect.paired import Terms
from kit.statistics.rehearsal import Timing, Wander, rehearse

QUICK = Wander(correlation_s=10.0)


def test_ten_quiet_minutes_shrink_what_is_allowed_for_drift():
    one, ten = (rehearse(QUICK, Timing(quiet)) for quiet in (1.0, 10.0))
    assert one.allowance == pytest.approx(0.105, abs=1e-6)  # 0.01 °C a minute over the 10.5 min between the windows' middles
    assert ten.allowance < 0.06 and ten.promised(1, False, 0.05) < one.promised(1, False, 0.05)


def test_doubling_the_wander_about_doubles_the_chance():
    one, other = (rehearse(Wander(sd_c, 10.0, display_c=0.0), Timing(), Terms(tolerance_c_per_min=0.0)) for sd_c in (0.02, 0.04))
    # The trend that is taken out depends a little on the noise.
    assert np.median(other.error) == pytest.approx(2 * np.median(one.error), rel=0.05)


def test_a_longer_baseline_and_response_shrink_the_chance():
    assert np.median(rehearse(Wander(), Timing(baseline=3.0)).error) < np.median(rehearse(Wander(), Timing()).error)


def test_a_drift_is_taken_off_the_truth_and_widens_what_is_promised():
    still, drifting = rehearse(QUICK, Timing()), rehearse(QUICK, Timing(), drift_c_per_min=0.02)
    assert abs(drifting.off.mean()) < 0.02 and drifting.drift == pytest.approx(0.21)
    assert all(drifting.promised(runs, False, 0.05) > still.promised(runs, False, 0.05) + 0.05 for runs in (1, 4, 12))
    assert drifting.promised(8, True, 0.05) == pytest.approx(still.promised(8, True, 0.05), rel=0.05)


def test_a_larger_effect_is_told_more_often_and_never_surely_by_one_direction_of_drift_alone():
    found = rehearse(QUICK, Timing(), drift_c_per_min=0.02)
    for runs in (1, 6):
        chances = found.chance(np.array([0.0, 0.3, 0.6, 3.0]), runs, False, 0.05)
        assert (np.diff(chances) >= 0).all() and chances[-1] > 0.99


def test_the_windows_of_a_timing():
    assert Timing(10.0, 1.0, 10.0).edges_s == (540, 600, 600, 660, 1170, 1230)
