"""Noise that neighbouring readings share: learnt from a whole record, over a grid of what it might be.

How to use it: bring a record to cells (`kit.statistics.cells`), then

    grid = noise_grid(times_s, counts, step_s)      # depends on the times alone; the last few are kept
    noise = learn_noise(grid, design, values)       # design (cells, terms), values (cells, runs) or (cells,)
    noise.variance_of(contrast)                     # of sum(contrast * values), (runs,), in the values' unit squared
    noise.covariance()                              # (cells, cells), averaged over the grid: for whitening by one Cholesky factor
    noise.mean_of(values), noise.spread_of(values, variances)   # any number known for each grid point and run
    noise.dof, noise.sd, noise.correlation_s, noise.white_share # for sentences and for Student's t

At each grid point the noise of a cell is an Ornstein-Uhlenbeck process of correlation time tc plus white noise of share s:
C_ij = (1 - s) exp(-|x_i - x_j| / tc) + s (mean n / n_i) [i = j], times a variance that is learnt. Such noise is a state seen
through white noise, so that one pass over the cells whitens it (Kalman, J. Basic Eng. 82:35, 1960, from memory): no N x N
matrix and no Cholesky factor is needed, and the cost grows with the number of cells, not with its cube.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

CORRELATION_TIMES, LONGEST_CORRELATION_S = 10, 180.0
WHITE_SHARES = (0.0, 0.2, 0.4, 0.6, 0.8)
# Slower loggers than this can't tell white noise from quick noise: their cells hold one reading each.
SPLIT_BELOW_S = 5.0
# The covariance is a curve over the time between two cells, drawn through this many points.
LAGS = 4096
SMALLEST = np.finfo(float).tiny


@dataclass(frozen=True, eq=False)
class NoiseGrid:
    """What the noise might be, at each of `points` grid points, for cells at `times_s`.

    `correlation_s`, `white`: (points,). `kept`: (cells - 1, points), how much of the wander is left at the next cell.
    `gain`, `spread`: (cells, points), the share of a surprise that the wander takes up and the variance of that surprise.
    `extra`: (cells,), the white variance of a cell relative to a cell of mean size.
    """

    times_s: np.ndarray
    extra: np.ndarray
    correlation_s: np.ndarray
    white: np.ndarray
    kept: np.ndarray
    gain: np.ndarray
    spread: np.ndarray

    def first(self, cells):
        """The same grid for the first `cells` cells alone."""
        return NoiseGrid(
            self.times_s[:cells], self.extra[:cells], self.correlation_s, self.white,
            self.kept[: max(cells - 1, 0)], self.gain[:cells], self.spread[:cells],
        )  # fmt: skip

    def whiten(self, columns):
        """`columns` (cells, k) made free of correlation at each grid point: (cells, points, k). A row depends on the rows before it alone."""
        out = np.empty((len(columns), len(self.white), columns.shape[1]))
        foretold, taken = np.zeros_like(out[0]), np.empty_like(out[0])
        each = (self.gain[:, :, None], np.vstack([self.kept, self.kept[:1]])[:, :, None], self.spread[:, :, None] ** -0.5)
        for row, surprise, gain, kept, scale in zip(columns, out, *each):
            np.subtract(row, foretold, out=surprise)
            np.multiply(gain, surprise, out=taken)
            foretold += taken
            foretold *= kept
            surprise *= scale
        return out

    def variance_of(self, contrast):
        """c'Cc at each grid point: the variance of sum(contrast * values) where a cell's own is 1. `contrast` (cells,) -> (points,)."""
        reach = carried(self.kept, self.kept * contrast[:-1, None])
        wander = contrast @ contrast + 2 * contrast @ reach
        return (1 - self.white) * wander + self.white * (contrast**2 @ self.extra)


@dataclass(frozen=True, eq=False)
class Noise:
    """The noise of one or more records on one time grid. `weights`, `variances`: (points, runs), weights sum to 1 over the points.

    `coefficients` (points, terms, runs) are the generalised least-squares terms of the design that was taken out, and
    `unscaled` (points, terms, terms) their covariance where a cell's own variance is 1.
    """

    grid: NoiseGrid
    weights: np.ndarray
    variances: np.ndarray
    dof: int
    coefficients: np.ndarray
    unscaled: np.ndarray

    def mean_of(self, values):
        """The weighted mean of `values` (points, runs), or (points,), over the grid: (runs,)."""
        return (self.weights * _per_run(values)).sum(0)

    def spread_of(self, values, variances):
        """The variance of a number that is `values` with `variances`, both (points, runs): within the grid points and between them."""
        return self.mean_of(variances + (values - self.mean_of(values)) ** 2)

    def variance_of(self, contrast):
        """The variance of sum(contrast * values), `contrast` (cells,): (runs,)."""
        return self.mean_of(self.variances * _per_run(self.grid.variance_of(contrast)))

    def covariance(self, run=0):
        """The covariance of the cells of one run, (cells, cells), averaged over the grid (good to a ten-thousandth of the variance)."""
        weighed = self.weights[:, run] * self.variances[:, run]
        times, grid = self.grid.times_s, self.grid
        lags = np.linspace(0, times[-1] - times[0], LAGS)
        wander = (weighed * (1 - grid.white)).reshape(-1, CORRELATION_TIMES).sum(0)
        falls = np.exp(-lags[:, None] / grid.correlation_s[:CORRELATION_TIMES]) @ wander
        matrix = np.interp(np.abs(np.subtract.outer(times, times)), lags, falls)
        return matrix + np.diag(grid.extra * (weighed @ grid.white))

    @property
    def sd(self):
        """The standard deviation of a cell of mean size, (runs,)."""
        return np.sqrt(self.mean_of(self.variances))

    @property
    def correlation_s(self):
        """For how long readings agree by chance, in seconds: the weighted mean over the grid, (runs,)."""
        return self.mean_of(self.grid.correlation_s)

    @property
    def white_share(self):
        """The share of the variance that neighbours do not have in common, (runs,)."""
        return self.mean_of(self.grid.white)


def noise_grid(times_s, counts, step_s):
    """The grid for cells at `times_s` (seconds, ascending, (cells,)) of `counts` readings each, taken every `step_s` seconds."""
    return _kept_grid(np.ascontiguousarray(times_s, float).tobytes(), np.ascontiguousarray(counts, float).tobytes(), float(step_s))


def learn_noise(grid, design, values):
    """The `Noise` of `values` (cells, runs) after taking out the columns of `design` (cells, terms), at least 2 cells more than terms.

    Each grid point weighs as its restricted likelihood, flat over the grid (Harville, JASA 72:320, 1977, from memory).
    """
    columns = np.asarray(values, float).reshape(len(grid.times_s), -1)
    terms, back = np.linalg.qr(design)
    start = terms.T @ columns
    unscaled, coefficients, rss, half_log_det = _least_squares(grid, terms, columns - terms @ start)
    dof = len(columns) - design.shape[1] - 1
    log_weights = -_per_run(half_log_det) - (dof + 1) / 2 * np.log(rss)
    weights = np.exp(log_weights - log_weights.max(0))
    inverse = np.linalg.inv(back)
    return Noise(
        grid, weights / weights.sum(0), rss / dof, dof, inverse @ (coefficients + start), inverse @ unscaled @ inverse.T
    )


def generalised_slope(grid, minutes, values):
    """Slope of `values` (cells, runs) over `minutes` at each grid point, (points, runs), and its variance where a cell's own is 1, (points,)."""
    centre = minutes - minutes.mean()
    unscaled, coefficients, _, _ = _least_squares(grid, np.stack([np.ones_like(centre), centre], axis=1), values - values.mean(0))
    return coefficients[:, 1], unscaled[:, 1, 1]


def carried(share, added):
    """The sums that a fading memory holds: out[0] = 0, out[i + 1] = share[i] * out[i] + added[i]. First axis: time."""
    out = np.zeros((len(added) + 1, *np.broadcast_shapes(share.shape[1:], added.shape[1:])))
    out[1:] = added
    faded = np.empty_like(out[0])
    for i in range(1, len(added)):
        np.multiply(share[i], out[i], out=faded)
        out[i + 1] += faded
    return out


def _least_squares(grid, terms, values):
    """At each grid point: covariance and coefficients of `terms`, residual sum of squares, half the log determinants."""
    white = grid.whiten(np.hstack([terms, values]))
    seen, left = white[:, :, : terms.shape[1]], white[:, :, terms.shape[1] :]
    across = seen.transpose(1, 2, 0)
    information = across @ seen.transpose(1, 0, 2)
    root = np.linalg.cholesky(information)
    moments = across @ left.transpose(1, 0, 2)
    explained = np.linalg.solve(root, moments)
    rss = np.maximum(np.einsum("ngr,ngr->gr", left, left) - (explained**2).sum(1), SMALLEST)
    half_log_det = np.log(grid.spread).sum(0) / 2 + np.log(np.diagonal(root, axis1=1, axis2=2)).sum(1)
    unscaled = np.linalg.inv(information)
    return unscaled, unscaled @ moments, rss, half_log_det


def _per_run(values):
    return values[:, None] if np.ndim(values) == 1 else values


@lru_cache(maxsize=8)
def _kept_grid(times, counts, step_s):
    times_s, sizes = np.frombuffer(times), np.frombuffer(counts)
    longest = max(LONGEST_CORRELATION_S, 3 * step_s)
    shares = WHITE_SHARES if step_s < SPLIT_BELOW_S else WHITE_SHARES[:1]
    correlation, white = (each.ravel() for each in np.meshgrid(np.geomspace(step_s / 3, longest, CORRELATION_TIMES), shares))
    kept = np.exp(-np.diff(times_s)[:, None] / correlation)
    extra = sizes.mean() / sizes
    return NoiseGrid(times_s, extra, correlation, white, kept, *_surprises(kept, white, extra))


def _surprises(kept, white, extra):
    """How far each cell's value may lie from what the cells before it foretell (its variance), and the share of that which lasts."""
    blurred = white * extra[:, None]
    fresh = (1 - white) * (1 - kept**2)
    spread, gain, wander = np.empty_like(blurred), np.empty_like(blurred), 1 - white
    for i in range(len(extra)):
        np.add(wander, blurred[i], out=spread[i])
        np.divide(wander, spread[i], out=gain[i])
        if i < len(kept):
            wander = kept[i] ** 2 * gain[i] * blurred[i] + fresh[i]
    return gain, spread
