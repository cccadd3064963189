"""Noise that neighbouring readings share: learnt from a whole record, over a grid of what it might be.

How to use it: bring a record to cells (`kit.statistics.readings.cells`), then

    grid = noise_grid(times_s, counts, step_s)      # depends on the times alone; the last few are kept
    noise = learn_noise(grid, design, values)       # design (cells, terms), values (cells, runs) or (cells,)
    noise.mean_of(noise.variances * grid.variance_of(contrast)[:, None])    # variance of sum(contrast * values), (runs,)
    noise.covariance()                              # (cells, cells), averaged over the grid: for whitening by one Cholesky factor
    noise.mean_of(values), noise.spread_of(values, variances)   # any number known for each grid point and run
    noise.dof, noise.sd, noise.correlation_s, noise.white_share # for sentences and for Student's t

At each grid point the noise of a cell is an Ornstein-Uhlenbeck process of correlation time tc plus white noise of share s:
C = (1 - s) K + s D, K_ij = exp(-|x_i - x_j| / tc), D diagonal (mean n / n_i), times a variance that is learnt. Such a K has a
tridiagonal inverse P (Rybicki and Press, Phys. Rev. Lett. 74:1060, 1995, from memory), so C = D S K with the tridiagonal
S = (1 - s) / D + s P, and all grid points together are one long tridiagonal system: no N x N matrix and no Cholesky factor is
needed, and the cost grows with the number of cells, not with its cube.
"""

from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
from scipy.linalg.lapack import dpttrf, dpttrs

CORRELATION_TIMES, LONGEST_CORRELATION_S = 10, 180.0
WHITE_SHARES = (0.0, 0.2, 0.4, 0.6, 0.8)
# Slower loggers than this can't tell white noise from quick noise: their cells hold one reading each.
SPLIT_BELOW_S = 5.0
# The covariance is a curve over the time between two cells, drawn through this many points.
LAGS = 4096
# From so many columns on, matrix products over all cells beat one pass over the cells for each column.
MANY = 96
# After so many correlation times less is shared than a double can hold; smaller numbers only slow a processor down.
FORGOTTEN = 40.0
SMALLEST = np.finfo(float).tiny


@dataclass(frozen=True, eq=False)
class NoiseGrid:
    """What the noise might be, for cells at `times_s`: each correlation time in `times` with each white share in `shares`.

    `extra` (cells,): D. `diagonal` (times, cells) and `beside` (times, cells - 1): P, one row for each correlation time.
    `factors`: S at all points, factored by LAPACK's pttrf. `half_log_det` (shares, times): half the log determinant of C.
    """

    times_s: np.ndarray
    extra: np.ndarray
    times: np.ndarray
    shares: np.ndarray
    diagonal: np.ndarray
    beside: np.ndarray
    factors: tuple
    half_log_det: np.ndarray

    @property
    def correlation_s(self):
        """The correlation time at each grid point, seconds, (points,)."""
        return np.tile(self.times, len(self.shares))

    @property
    def white(self):
        """The white share at each grid point, (points,)."""
        return np.repeat(self.shares, len(self.times))

    def first(self, cells):
        """The grid for the first `cells` cells alone."""
        return _grid(self.times_s[:cells], self.extra[:cells], self.times, self.shares)

    def products(self, left, right):
        """left' C^-1 right and the sums of right^2 in that measure: (points, a, b) and (points, b), for `left` (cells, a), `right` (cells, b)."""
        if right.shape[1] >= MANY:
            return self._products_by_modes(left, right)
        points = (len(self.shares), len(self.times))
        solved = np.empty((right.shape[1], *points, len(right)))
        solved[:] = (right.T / self.extra)[:, None, None]
        solved = dpttrs(*self.factors, solved.reshape(right.shape[1], -1).T, overwrite_b=True)[0].T.reshape(solved.shape)
        across = self._precise(left) @ solved.transpose(1, 2, 3, 0)
        squares = np.einsum("tnb,bstn->stb", self._precise(right).transpose(0, 2, 1), solved)
        return across.reshape(-1, *across.shape[2:]), squares.reshape(-1, right.shape[1])

    def variance_of(self, contrast):
        """c'Cc at each grid point: the variance of sum(contrast * values) where a cell's own is 1. `contrast` (cells,) -> (points,)."""
        blocks = dpttrf(self.diagonal.ravel(), joined(self.beside))[:2]
        solved = dpttrs(*blocks, np.tile(contrast, len(self.times)))[0].reshape(self.diagonal.shape)
        return (1 - self.white) * np.tile(solved @ contrast, len(self.shares)) + self.white * (contrast**2 @ self.extra)

    @cached_property
    def modes(self):
        """Directions that make K and D diagonal together, for each correlation time: (times, modes, cells); and K there, (times, modes)."""
        lags = np.abs(np.subtract.outer(self.times_s, self.times_s))
        root = np.sqrt(self.extra)
        agree = np.exp(-np.minimum(lags / self.times[:, None, None], FORGOTTEN))
        sizes, directions = np.linalg.eigh(np.where(agree > np.exp(-FORGOTTEN), agree, 0) / np.outer(root, root))
        directions[abs(directions) < np.exp(-FORGOTTEN)] = 0
        return directions.transpose(0, 2, 1) / root, sizes

    @cached_property
    def lags(self):
        """What a covariance over these cells is read from: the kernel of each correlation time at equally spaced lags (lags, times), and for
        each pair of cells the lag just below theirs and how far they lie beyond it, (cells, cells) each."""
        lags = np.linspace(0, self.times_s[-1] - self.times_s[0], LAGS)
        places = np.abs(np.subtract.outer(self.times_s, self.times_s)) / lags[1]
        below = np.minimum(places.astype(np.intp), LAGS - 2)
        return np.exp(-lags[:, None] / self.times), below, places - below

    def _products_by_modes(self, left, right):
        """`products`, by the modes: C is diagonal there, (1 - s) K + s, whatever the share s."""
        directions, sizes = self.modes
        shared = self.shares[:, None]
        weights = 1 / ((1 - shared) * sizes[:, None] + shared)
        seen = (directions.reshape(-1, len(right)) @ right).reshape(*sizes.shape, -1)
        weighed = weights[:, :, None] * (directions @ left).transpose(0, 2, 1)[:, None]
        across = weighed.reshape(len(sizes), -1, len(right)) @ seen
        squares = weights @ seen**2
        shape = (len(sizes), len(self.shares), left.shape[1], right.shape[1])
        return across.reshape(shape).swapaxes(0, 1).reshape(-1, *shape[2:]), squares.swapaxes(0, 1).reshape(-1, right.shape[1])

    def _precise(self, columns):
        """P times `columns` (cells, k), for each correlation time: (times, k, cells)."""
        rows = columns.T
        out = self.diagonal[:, None] * rows
        out[..., 1:] += self.beside[:, None] * rows[:, :-1]
        out[..., :-1] += self.beside[:, None] * rows[:, 1:]
        return out


@dataclass(frozen=True, eq=False)
class Noise:
    """The noise of one or more records on one time grid. `weights`, `variances`: (points, runs), weights sum to 1 over the points.

    `dof`: degrees of freedom. `back`, `fitted` and `apart` hold the terms that were taken out: see `coefficients` and `unscaled`.
    """

    grid: NoiseGrid
    weights: np.ndarray
    variances: np.ndarray
    dof: int
    back: np.ndarray
    fitted: np.ndarray
    apart: np.ndarray

    @property
    def coefficients(self):
        """The generalised least-squares coefficients of the design, (points, terms, runs)."""
        return np.linalg.solve(self.back, self.fitted)

    @property
    def unscaled(self):
        """Their covariance where a cell's own variance is 1, (points, terms, terms)."""
        inverse = np.linalg.inv(self.back)
        return inverse @ self.apart @ inverse.T

    def mean_of(self, values):
        """The weighted mean of `values` (points, runs), or (points,), over the grid: (runs,)."""
        return (self.weights * _per_run(values)).sum(0)

    def spread_of(self, values, variances):
        """The variance of a number that is `values` with `variances`, both (points, runs): within the grid points and between them."""
        return self.mean_of(variances + (values - self.mean_of(values)) ** 2)

    def covariance(self, run=0, *, first=0):
        """The covariance of the cells of one run from the `first` on, (cells, cells), averaged over the grid (good to a ten-thousandth)."""
        weighed, grid = self.weights[:, run] * self.variances[:, run], self.grid
        wander = (weighed * (1 - grid.white)).reshape(len(grid.shares), -1).sum(0)
        kernels, below, part = grid.lags
        falls = kernels @ wander
        matrix = falls[below] + part * np.diff(falls)[below]
        matrix[np.diag_indices_from(matrix)] += grid.extra * (weighed @ grid.white)
        return matrix[first:, first:]

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
    counts = np.asarray(counts, float)
    return _kept_grid(np.ascontiguousarray(times_s, float).tobytes(), (counts.mean() / counts).tobytes(), float(step_s))


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
    return Noise(grid, weights / weights.sum(0), rss / dof, dof, back, coefficients + start, unscaled)


def joined(beside):
    """The side diagonal of one long block matrix, from those of its blocks (..., cells - 1): nothing where two blocks meet."""
    return np.concatenate([beside, np.zeros((*beside.shape[:-1], 1))], axis=-1).ravel()[:-1]


def _least_squares(grid, terms, values):
    """At each grid point: covariance and coefficients of `terms`, residual sum of squares, half the log determinants."""
    products, squares = grid.products(terms, np.hstack([terms, values]))
    information, moments = products[:, :, : terms.shape[1]], products[:, :, terms.shape[1] :]
    unscaled = np.linalg.inv(information)
    coefficients = unscaled @ moments
    rss = np.maximum(squares[:, terms.shape[1] :] - (coefficients * moments).sum(1), SMALLEST)
    return unscaled, coefficients, rss, grid.half_log_det.ravel() + np.linalg.slogdet(information)[1] / 2


def _per_run(values):
    return values[:, None] if np.ndim(values) == 1 else values


@lru_cache(maxsize=8)
def _kept_grid(times, extra, step_s):
    shares = np.array(WHITE_SHARES if step_s < SPLIT_BELOW_S else WHITE_SHARES[:1])
    correlations = np.geomspace(step_s / 3, max(LONGEST_CORRELATION_S, 3 * step_s), CORRELATION_TIMES)
    return _grid(np.frombuffer(times), np.frombuffer(extra), correlations, shares)


def _grid(times_s, extra, correlations, shares):
    kept = np.exp(-np.diff(times_s) / correlations[:, None])
    lost = 1 - kept**2
    diagonal = np.ones((len(correlations), len(times_s)))
    diagonal[:, 1:] += kept**2 / lost
    diagonal[:, :-1] += kept**2 / lost
    shared = shares[:, None, None]
    *factors, _ = dpttrf(((1 - shared) / extra + shared * diagonal).ravel(), joined(-shared * kept / lost))
    pivots = factors[0].reshape(len(shares), *diagonal.shape)
    half_log_det = (np.log(pivots).sum(-1) + np.log(extra).sum() + np.log(lost).sum(-1)) / 2
    return NoiseGrid(times_s, extra, correlations, shares, diagonal, -kept / lost, tuple(factors), half_log_det)
