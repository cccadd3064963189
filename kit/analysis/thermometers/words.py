"""A calibration in words: its sentence, its cautions, its account."""

import numpy as np

from kit.estimate import amount, rounded
from kit.faults import Caution
from kit.words import listed

USUAL_WARMING_C, SEEN_SCATTER_C = 1.5, 0.05


def calibration_sentence(calibration):
    """What to add to each thermometer in the middle of its readings, and how well the scales are known."""
    added = []
    for probe in calibration.lines:
        middle = float(np.mean(calibration.points.readings[probe]))
        sign = "+" if calibration.correction(probe, middle).value > 0 else ""
        added.append(f"{sign}{calibration.correction(probe, middle)} to the {probe} thermometer near {rounded(middle, 0)} °C")
    return f"By {calibration.method}: add {listed(added)}. {_scale(calibration)}"


def _scale(calibration):
    if calibration.gain_uncertainty is None:
        return "The scales are left as they are: these readings span too little, or scatter too much, to show them."
    return f"Against each other their scales are known to {amount(100 * calibration.gain_uncertainty)} %."


def calibration_cautions(calibration):
    """What to keep in mind about a calibration."""
    rules = (no_scale(calibration), bent(calibration), no_reference(calibration))
    return tuple(caution for caution in rules if caution)


def no_scale(calibration):
    if calibration.gain_uncertainty is None:
        text = "Only a shift is corrected, and a shift drops out of the paired effect anyway. Compare at two temperatures further apart."
        return Caution("no-scale", text)


def bent(calibration):
    """Points that scatter about the line by more than the display explains."""
    known = float(np.sqrt(np.mean(calibration.points.reading_error**2 + calibration.points.true_error**2)))
    worst = max((line.scatter for line in calibration.lines.values() if np.isfinite(line.scatter)), default=0.0)
    if worst > max(3 * known, SEEN_SCATTER_C):
        text = (
            f"The points lie {amount(worst)} °C off the line, more than the display explains. Stir the bath, and wait until both have "
            "settled."
        )
        return Caution("scatter", text)


def no_reference(calibration):
    if calibration.method == "side by side":
        text = "Side by side shows how the two differ, not which one is right. For the paired effect that is enough."
        return Caution("no-reference", text)


def calibration_explained(calibration):
    """The account of a `Calibration`, one thought a line."""
    return "\n".join((*calibration.points.told, *_lines(calibration), _scale(calibration), _counts(calibration)))


def _lines(calibration):
    for probe, line in calibration.lines.items():
        count = len(calibration.points.readings[probe])
        tilt = f", and {rounded(line.slope, 4)} °C more for each degree" if line.slope_error else ""
        yield (
            f"The {probe} thermometer: a line through {count} points adds {rounded(line.intercept, 3)} °C at {rounded(line.origin, 1)} "
            f"°C{tilt}. "
            f"The standard uncertainty there is {amount(float(line.error_at(line.origin)))} °C."
        )


def _counts(calibration):
    if calibration.gain_uncertainty is None:
        return "In the paired effect a shift cancels, so these corrections leave it as it is."
    size = amount(calibration.gain_uncertainty * USUAL_WARMING_C)
    return (
        f"In a paired effect a shift cancels; the scales leave {size} °C of uncertainty for each {USUAL_WARMING_C:g} °C that a vessel "
        "changes."
    )
