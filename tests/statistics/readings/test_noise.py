"""The noise grid against the same restricted likelihood written out with Cholesky factors, and against noise of known kind."""

import numpy as np
import pytest

from kit.bench.noise import wander
from kit.statistics.ranges.drift import early_course
from kit.statistics.readings.cells import cut
from kit.statistics.readings.noise import learn_noise, noise_grid


@pytest.fixture(scope="module")
def record():
    """Cells of a record with a gap and windows that cut cells short, a design of three terms, and three runs of noise."""
    rng = np.random.default_rng(3)
    seconds = np.delete(np.arange(0, 400.0), slice(120, 170))
    cells = cut(seconds, [60, 84, 251, 295], 1.0)
    design = np.stack([np.ones(len(cells.times_s)), cells.times_s / 60, np.exp(-cells.times_s / 90)], axis=1)
    return cells, noise_grid(cells.times_s, cells.counts, 1.0), design, cells.means(wander(rng, seconds, 0.02, 20, 3)).T


def matrix(grid, point):
    lags = np.abs(np.subtract.outer(grid.times_s, grid.times_s))
    return (1 - grid.white[point]) * np.exp(-lags / grid.correlation_s[point]) + np.diag(grid.white[point] * grid.extra)


def log_likelihood_by_cholesky(covariance, design, values):
    root = np.linalg.cholesky(covariance)
    corner = np.abs(np.diag(np.linalg.qr(np.linalg.solve(root, np.column_stack([design, values])), mode="r")))
    free = len(values) - design.shape[1]
    return -np.log(np.diag(root)).sum() - np.log(corner[:-1]).sum() - free * np.log(corner[-1]), corner[-1] ** 2


def test_weights_and_variances_are_those_of_the_full_matrices(record):
    _, grid, design, values = record
    noise = learn_noise(grid, design, values)
    for run in range(3):
        direct = [log_likelihood_by_cholesky(matrix(grid, point), design, values[:, run]) for point in range(len(grid.white))]
        weights = np.exp([each[0] - max(direct)[0] for each in direct])
        assert noise.weights[:, run] == pytest.approx(weights / weights.sum(), rel=1e-8, abs=1e-14)
        assert noise.variances[:, run] == pytest.approx([rss / noise.dof for _, rss in direct])


@pytest.mark.parametrize("point", [0, 17, 34, 49])
def test_terms_and_contrasts_are_those_of_the_full_matrix(record, point):
    _, grid, design, values = record
    noise, full = learn_noise(grid, design, values), matrix(grid, point)
    inverse = np.linalg.inv(design.T @ np.linalg.solve(full, design))
    assert noise.unscaled[point] == pytest.approx(inverse)
    assert noise.coefficients[point] == pytest.approx(inverse @ design.T @ np.linalg.solve(full, values))
    contrast = values[:, 0]
    assert grid.variance_of(contrast)[point] == pytest.approx(contrast @ full @ contrast)


def test_the_first_cells_alone_give_their_own_slope(record):
    cells, grid, _, values = record
    minutes = cells.times_s[:20] / 60
    design = np.stack([np.ones(20), minutes], axis=1)
    course = early_course(grid.first(20), minutes, values[:20])
    curved = np.stack([np.ones(20), minutes, minutes**2, minutes**3], axis=1)
    for point in (5, 25, 45):
        root = np.linalg.cholesky(matrix(grid, point)[:20, :20])
        white, line, bent = (np.linalg.solve(root, each) for each in (values[:20], design, curved))
        inverse = np.linalg.inv(line.T @ line)
        assert course.unscaled[point] == pytest.approx(inverse[1, 1])
        assert course.slopes[point] == pytest.approx((inverse @ line.T @ white)[1])
        left = [((white - each @ np.linalg.lstsq(each, white, rcond=None)[0]) ** 2).sum(0) for each in (line, bent)]
        assert course.bends[point] == pytest.approx((left[0] - left[1]) / 2, rel=1e-6)


def test_the_covariance_is_the_weighted_mean_of_the_grid(record):
    _, grid, design, values = record
    noise = learn_noise(grid, design, values)
    weighed = noise.weights[:, 1] * noise.variances[:, 1]
    expected = sum(weight * matrix(grid, point) for point, weight in enumerate(weighed))
    assert noise.covariance(run=1) == pytest.approx(expected, abs=3e-4 * expected[0, 0])


@pytest.mark.parametrize("correlation_s, low, high", [(0, 0, 6), (60, 30, 120)])
def test_learnt_correlation_tells_white_noise_from_slow_noise(correlation_s, low, high):
    seconds = np.arange(0, 1200.0)
    cells = cut(seconds, [], 1.0)
    values = cells.means(wander(np.random.default_rng(1), seconds, 0.02, correlation_s, 20)).T
    noise = learn_noise(noise_grid(cells.times_s, cells.counts, 1.0), np.ones((len(values), 1)), values)
    slow = noise.correlation_s * (1 - noise.white_share)
    assert low <= np.median(slow) <= high


def test_one_design_for_many_runs_gives_what_each_gets_alone(record):
    _, grid, design, values = record
    together = learn_noise(grid, design, values)
    alone = learn_noise(grid, design, values[:, 2])
    assert together.weights[:, 2] == pytest.approx(alone.weights[:, 0], abs=1e-12)
    assert together.correlation_s[2] == pytest.approx(alone.correlation_s[0])


def test_slow_loggers_get_no_white_part():
    grid = noise_grid(np.arange(0, 300, 10.0), np.ones(30), 10.0)
    assert set(grid.white) == {0.0} and len(grid.white) == 10
