"""How likely repeats tell an effect from none, and how wide their range gets: a reference library, and draws."""

import numpy as np
import pytest

from kit.statistics.ranges.power import chance_of_telling, half_width, seldom_more


@pytest.mark.parametrize("repeats", [2, 4, 12])
@pytest.mark.parametrize("effect", [0.1, 0.3, 0.8])
def test_the_chance_equals_that_of_statsmodels(repeats, effect):
    from statsmodels.stats.power import TTestPower

    reference = TTestPower().power(effect / 0.4, repeats, 0.025, alternative="larger")
    assert chance_of_telling(effect, 0.4 / np.sqrt(repeats), repeats - 1) == pytest.approx(reference, abs=1e-8)


def test_a_bias_that_is_allowed_for_lowers_the_chance():
    assert chance_of_telling(0.3, 0.08, 5, bias=0.1) == pytest.approx(float(chance_of_telling(0.2, 0.08, 5)))


@pytest.mark.parametrize("repeats", [3, 6, 12])
def test_four_of_five_standard_deviations_stay_under_what_is_said(repeats):
    seen = np.random.default_rng(2).normal(0, 0.3, (40_000, repeats)).std(axis=1, ddof=1)
    assert np.mean(seen < 0.3 * seldom_more(repeats - 1, 0.8)) == pytest.approx(0.8, abs=0.01)


def test_more_runs_shrink_chance_and_not_what_is_shared():
    widths = [float(half_width(0.1 / np.sqrt(runs), runs - 1, 0.2)) for runs in (3, 12, 300)]
    assert widths[0] > widths[1] > widths[2] > 0.2
    assert widths[2] == pytest.approx(0.2 + 1.645 * 0.1 / np.sqrt(300), abs=1e-3)
