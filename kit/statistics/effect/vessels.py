"""What each vessel did by itself: its whole change, with an interval for noise, display and calibration."""

import numpy as np

from kit.statistics.ranges import coverage_factor
from kit.statistics.readings import best_trend, change, display_step, hidden_of_change, learn_noise, settling_trends


def vessel_changes(layout, vessels, question):
    """How much each of `vessels` (vessels, readings) changed by itself (°C), its standard uncertainty, its coverage factor: (vessels,) each.

    Noise, display and calibration count; there is no drift to allow for, as the vessel's whole change is what is asked.
    """
    designs = settling_trends(layout.cells.times_s, layout.designs)
    changes, values = change(layout, vessels), layout.cells.means(vessels).T
    hidden = hidden_of_change(layout, vessels, display_step(vessels) if question.resolution_c is None else question.resolution_c)
    variance, trends = np.empty_like(changes), best_trend(designs, values)
    for trend in np.unique(trends):
        alike = trends == trend
        noise = learn_noise(layout.grid, designs[trend], values[:, alike])
        variance[alike] = noise.mean_of(np.maximum(noise.variances * layout.spread[:, None], hidden[alike]))
    error = np.hypot(np.sqrt(variance), question.gain_uncertainty * changes)
    return changes, error, np.full_like(error, coverage_factor(question.level, len(values) - designs.shape[2] - 1))
