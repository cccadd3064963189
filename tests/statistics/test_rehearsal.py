"""Rehearsed runs: the same call gives the same, and the numbers follow what they should follow."""

import pytest

from kit.statistics.paired import Question
from kit.statistics.rehearsal import Timing, Wander, rehearse


def test_ten_quiet_minutes_shrink_what_is_allowed_for_drift():
    one, ten = (rehearse(Wander(correlation_s=10.0), Timing(quiet)) for quiet in (1.0, 10.0))
    assert one.allowance == pytest.approx(0.105, abs=1e-6)  # 0.01 °C a minute over the 10.5 min between the windows' middles
    assert ten.allowance < 0.06 and ten.half_width < one.half_width


def test_doubling_the_wander_about_doubles_the_chance():
    one, other = (rehearse(Wander(sd_c, 10.0, display_c=0.0), Timing(), Question(tolerance_c_per_min=0.0)) for sd_c in (0.02, 0.04))
    assert other.error == pytest.approx(2 * one.error, rel=0.05)  # the trend that is taken out depends a little on the noise


def test_a_longer_baseline_and_response_shrink_the_chance():
    assert rehearse(Wander(), Timing(baseline=3.0)).error < rehearse(Wander(), Timing()).error


def test_the_windows_of_a_timing():
    assert Timing(10.0, 1.0, 10.0).edges_s == (540, 600, 600, 660, 1170, 1230)
