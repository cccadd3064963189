"""The gas of a class in the air of its room."""

import pytest

from kit.physics.gas.room import breath_ppm_per_min, LIMITS, room_added_ppm


def test_eight_groups_add_80_ppm_to_a_classroom():
    """8 × 1.5 L in 150 m3: 12 L over 150,000 L (arithmetic)."""
    assert room_added_ppm(8 * 1.5, 150) == pytest.approx(80)


def test_thirty_people_breathe_out_more_than_that_in_two_minutes():
    """About 50 to 60 ppm a minute (0.0043 to 0.005 L/s each, from memory)."""
    assert breath_ppm_per_min(30, 150) == pytest.approx((51.6, 60.0))


def test_limits_rise_from_a_day_to_a_moment_and_name_their_source():
    assert [each.ppm for each in LIMITS] == [5_000, 30_000, 40_000]
    assert all(each.by for each in LIMITS)
