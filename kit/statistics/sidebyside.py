"""How one thermometer's reading must be corrected to agree with another's, from a record in which both felt the same temperature."""

import numpy as np

from kit.statistics.cells import cut
from kit.statistics.display import display_step, display_uncertainty
from kit.statistics.line import Line
from kit.statistics.noise import learn_noise, noise_grid


def side_by_side(seconds, reading, other):
    """The `Line` of (other − reading) over `reading`, (readings,) each, °C, at `seconds`: ascending, none missing, the bath not still.

    Neighbouring readings are not taken as independent: their noise is learnt (`kit.statistics.noise`). A display that moves in steps
    over few of them leaves at least its own uncertainty. The intercept lies at the mean reading.
    """
    step_s = float(np.median(np.diff(seconds)))
    cells = cut(seconds, (), step_s)
    warm = cells.means(reading)
    origin, gap = float(warm.mean()), cells.means(other - reading)
    noise = learn_noise(noise_grid(cells.times_s, cells.counts, step_s), np.stack([np.ones_like(warm), warm - origin], axis=1), gap)
    values = [noise.mean_of(noise.coefficients[:, term])[0] for term in (0, 1)]
    variances = [
        noise.spread_of(noise.coefficients[:, term], noise.variances * noise.unscaled[:, term, term][:, None])[0] for term in (0, 1)
    ]
    hidden = 2 * display_uncertainty(float(display_step(np.stack([reading, other])).max())) ** 2
    errors = np.sqrt(np.maximum(variances, [hidden, hidden / max(np.ptp(warm) / 2, 1e-9) ** 2]))
    return Line(float(values[0]), float(values[1]), origin, float(errors[0]), float(errors[1]), 0.0, float(noise.sd[0]), float(noise.dof))
