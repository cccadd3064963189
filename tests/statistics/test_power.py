"""How likely repeats tell an effect from none, and how wide their range is: a reference library, and draws."""

import numpy as np
import pytest

from kit.statistics.power import chance_of_telling, expected_half_width
from kit.statistics.quantiles import coverage_factor


@pytest.mark.parametrize("repeats", [2, 4, 12])
@pytest.mark.parametrize("effect", [0.1, 0.3, 0.8])
def test_the_chance_equals_that_of_statsmodels(repeats, effect):
    from statsmodels.stats.power import TTestPower

    reference = TTestPower().power(effect / 0.4, repeats, 0.025, alternative="larger")
    assert chance_of_telling(effect, 0.4, repeats) == pytest.approx(reference, abs=1e-8)


def test_a_bias_that_is_allowed_for_lowers_the_chance():
    assert chance_of_telling(0.3, 0.2, 6, bias=0.1) == pytest.approx(float(chance_of_telling(0.2, 0.2, 6)))


@pytest.mark.parametrize("repeats", [3, 6, 12])
def test_the_expected_half_width_is_that_of_draws(repeats):
    draws = np.random.default_rng(2).normal(0, 0.3, (40_000, repeats))
    half_widths = coverage_factor(0.95, repeats - 1) * draws.std(axis=1, ddof=1) / np.sqrt(repeats)
    assert expected_half_width(0.3, repeats) == pytest.approx(half_widths.mean(), rel=0.01)


def test_repeats_shrink_chance_and_not_what_is_shared():
    widths = [expected_half_width(0.1, repeats, bias=0.2) for repeats in (3, 12, 300)]
    assert widths[0] > widths[1] > widths[2] > 0.2
    assert widths[2] == pytest.approx(0.2 + 1.645 * 0.1 / np.sqrt(300), abs=1e-3)
