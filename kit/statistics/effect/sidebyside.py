"""How one thermometer's reading must be corrected to agree with another's, from a record in which both felt the same temperature."""

from dataclasses import dataclass

import numpy as np

from kit.statistics.line import Line
from kit.statistics.ranges import coverage_factor
from kit.statistics.readings import cut, display_step, display_uncertainty, learn_noise, noise_grid

# Beyond this level a bend or a lag counts as seen.
SURE = 0.999


@dataclass(frozen=True)
class SideBySide:
    """`line`: the correction over the reading. `bend_c`: how far the correction leaves that line in the middle of the readings (°C), 0 where no bend
    is sure. `lag_s`: by how many seconds the first thermometer comes later than the other, 0 where no lag is sure. `lag_hides`: whether the bath
    changed in such a way, warming or cooling alone, that a lag looks like a wrong scale."""

    line: Line
    bend_c: float
    lag_s: float
    lag_hides: bool


def side_by_side(seconds, reading, other):
    """The `SideBySide` of (other − reading) over `reading`, (readings,) each, °C, at `seconds`: ascending, none missing, the bath not still.

    Neighbouring readings are not taken as independent: their noise is learnt (`kit.statistics.readings.noise`). A display that moves in steps
    over few of them leaves at least its own uncertainty. A bend and a lag that are surely there are taken out, and the bend widens the line's
    slope, as no one slope holds. The intercept lies at the mean reading.
    """
    step_s = float(np.median(np.diff(seconds)))
    cells = cut(seconds, (), step_s)
    warm, gap = cells.means(reading), cells.means(other - reading)
    grid, origin, half = noise_grid(cells.times_s, cells.counts, step_s), float(warm.mean()), max(float(np.ptp(warm)) / 2, 1e-9)
    line, rate = [np.ones_like(warm), warm - origin], np.gradient(_smooth(warm), cells.times_s)
    bent = np.square((warm - origin) / half) - 0.5
    extra = {"bend": bent - bent.mean(), "lag": rate}
    found = _terms(grid, [*line, *extra.values()], gap)
    sure = [name for place, name in enumerate(extra, 2) if abs(found[place][0]) > coverage_factor(SURE, len(warm) - 5) * found[place][1]]
    values = _terms(grid, [*line, *(extra[name] for name in sure)], gap)
    hidden = 2 * display_uncertainty(float(display_step(np.stack([reading, other])).max())) ** 2
    seen = dict(zip(sure, (value for value, _ in values[2:])))
    tilted = 2 * seen.get("bend", 0.0) / half / np.sqrt(3)  # the slope at a reading anywhere in the range, against the mean one
    errors = np.sqrt(np.maximum([values[0][1] ** 2, values[1][1] ** 2 + tilted**2], [hidden, hidden / half**2]))
    scatter = float(np.std(gap - values[0][0] - values[1][0] * line[1]))
    fitted = Line(values[0][0], values[1][0], origin, float(errors[0]), float(errors[1]), 0.0, scatter, float(len(warm) - 3 - len(sure)))
    alike = abs(np.corrcoef(line[1], rate)[0, 1]) if np.ptp(rate) > 0 else 1.0
    return SideBySide(fitted, seen.get("bend", 0.0) / 2, seen.get("lag", 0.0), bool(alike > 0.9 and "lag" not in sure))


def _smooth(values):
    """Means of three neighbours, so that a rate is not all noise."""
    return np.convolve(np.pad(values, 1, mode="edge"), np.full(3, 1 / 3), mode="valid")


def _terms(grid, columns, values):
    """(value, standard error) of each term of a generalised least-squares fit."""
    noise = learn_noise(grid, np.stack(columns, axis=1), values)
    found = []
    for term in range(len(columns)):
        coefficients = noise.coefficients[:, term]
        variance = noise.spread_of(coefficients, noise.variances * noise.unscaled[:, term, term][:, None])[0]
        found.append((float(noise.mean_of(coefficients)[0]), float(variance) ** 0.5))
    return found
