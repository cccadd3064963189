"""A calibration in words: its sentence, its cautions, its account."""

import numpy as np

from kit.estimate import amount, rounded
from kit.faults import Caution
from kit.statistics import coverage_factor
from kit.units import about, difference, stated, temperature
from kit.words import listed

USUAL_WARMING_C, SEEN_SCATTER_C, APART_C = 1.5, 0.05, 0.05
# A bow needs so many points, and this level, to be called one.
FEWEST_FOR_A_BOW, SURE_OF_A_BOW = 5, 0.99


def calibration_sentence(calibration):
    """What to add to each thermometer in the middle of its readings, and how well the scales are known."""
    added = []
    for probe in calibration.lines:
        middle = float(np.mean(calibration.points.readings[probe]))
        sign = "+" if calibration.correction(probe, middle).value > 0 else ""
        added.append(f"{sign}{calibration.correction(probe, middle)} to the {probe} thermometer near {temperature(middle, 0)}")
    return f"By {calibration.method}: add {listed(added)}. {_scale(calibration)}"


def _scale(calibration):
    if calibration.gain_uncertainty is None:
        return "The scales are left as they are: these readings span too little, or scatter too much, to show them."
    return f"Against each other their scales are known to {amount(100 * calibration.gain_uncertainty)} %."


def calibration_cautions(calibration):
    """What to keep in mind about a calibration."""
    rules = (
        no_scale(calibration), scattered(calibration), bent(calibration), lagging(calibration), lag_hidden(calibration), apart(calibration),
        no_reference(calibration),
    )  # fmt: skip
    return tuple(caution for caution in rules if caution)


def no_scale(calibration):
    if calibration.gain_uncertainty is None:
        text = "Only a shift is corrected, and a shift drops out of the paired effect anyway. Compare at two temperatures further apart."
        return Caution("no-scale", text)


def scattered(calibration):
    """Points that scatter about the line by more than the display explains."""
    known = float(np.sqrt(np.mean(calibration.points.reading_error**2 + calibration.points.true_error**2)))
    worst = max((line.scatter for line in calibration.lines.values() if np.isfinite(line.scatter)), default=0.0)
    if worst > max(3 * known, SEEN_SCATTER_C):
        text = (
            f"The points lie {about(worst)} off the line, more than the display explains. Stir the bath, and wait until both have "
            "settled."
        )
        return Caution("scatter", text)


def bent(calibration):
    """A record, or five points or more, that leave their straight line in one bow."""
    record = calibration.record
    bow = abs(record.bend_c) if record else max((bow_of(calibration, probe) for probe in calibration.lines), default=0.0)
    if bow > 0:
        text = (
            f"The correction is no straight line: it bows by {about(bow)} in the middle. Calibrate near the temperatures of the run, and do not "
            "trust it beyond them."
        )
        return Caution("bent", text)


def bow_of(calibration, probe):
    """How far the points of a thermometer bow in the middle (°C), 0 where no bow is sure or fewer than five points are there."""
    x, points = calibration.points.readings[probe], calibration.points
    if len(x) < FEWEST_FOR_A_BOW or np.ptp(x) == 0:
        return 0.0
    y, z = points.true[probe] - x, (x - x.mean()) / (np.ptp(x) / 2)
    design = np.stack([np.ones_like(z), z, z**2], axis=1)
    coefficients, *_ = np.linalg.lstsq(design, y, rcond=None)
    left, dof = y - design @ coefficients, len(x) - 3
    known = float(np.mean(points.reading_error**2 + points.true_error**2))
    variance = max(float(left @ left) / dof, known) * np.linalg.inv(design.T @ design)[2, 2]
    size = abs(float(coefficients[2]))
    return size / 2 if size > coverage_factor(SURE_OF_A_BOW, dof) * variance**0.5 else 0.0


def lagging(calibration):
    record = calibration.record
    if record and record.lag_s:
        late = "treated" if record.lag_s > 0 else "control"
        text = (
            f"The {late} thermometer comes about {amount(abs(record.lag_s))} s later than the other. That was taken out here; in a run wait until "
            "both have settled."
        )
        return Caution("lag", text)


def lag_hidden(calibration):
    record = calibration.record
    if record and record.lag_hides and not record.lag_s:
        text = (
            "The bath only warmed or only cooled. A thermometer that comes later than the other looks like a wrong scale then: let the bath go up and "
            "down, or slowly."
        )
        return Caution("lag-hidden", text)


def apart(calibration):
    """Two thermometers in one bath that differ by more than their displays explain: a shift, or a bath that is not the same everywhere."""
    if calibration.method != "side by side":
        return None
    points = calibration.points
    gap = float(np.median(np.abs(points.true["treated"] - points.readings["treated"])))
    if gap > max(3 * float(points.reading_error.mean()), APART_C):
        text = (
            f"The two differ by about {about(gap)} in one bath. Is it the thermometers, or is the water not the same in both places? Stir, let them "
            "change places, and compare again."
        )
        return Caution("apart", text)


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
        tilt = f", and {rounded(line.slope, 4)} degrees more for each degree" if line.slope_error else ""
        yield (
            f"The {probe} thermometer: a line through {count} points adds {difference(line.intercept, 3)} at "
            f"{temperature(line.origin, 1)}{tilt}. "
            f"The standard uncertainty there is {about(float(line.error_at(line.origin)))}."
        )


def _counts(calibration):
    if calibration.gain_uncertainty is None:
        return "In the paired effect a shift cancels, so these corrections leave it as it is."
    size = about(calibration.gain_uncertainty * USUAL_WARMING_C)
    return (
        f"In a paired effect a shift cancels; the scales leave {size} of uncertainty for each {stated(USUAL_WARMING_C)} that a vessel "
        "changes."
    )
