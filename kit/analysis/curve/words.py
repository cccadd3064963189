"""What a warming curve's numbers mean in words: whether they are determined, what the residuals show, how it was all found."""

from math import ceil, inf, isfinite

import numpy as np

from kit.estimate import amount, rounded
from kit.faults import Caution
from kit.statistics import fit_rise, independent_errors
from kit.words import counted

# A time constant known to a factor of three is none; a rise needs that many display steps to have a shape.
WIDEST_FACTOR, FEWEST_STEPS = 3, 5
WHOLE_RISE, SHORT_RECORD = 3, 1.5
# How rarely noise alone must leave such residuals before a pattern is said to be in them.
RARE, VERY_RARE, FAR_OFF_SD = 0.01, 1e-4, 6
USUAL_DRIFT_C_PER_MIN = 0.01


def why_undetermined(found, windows):
    """(reason, whether bounds still hold) for a record that does not determine its curve; (None, True) for one that does."""
    moved = abs(found.fit.at(windows.seconds[5]) - found.fit.level)
    if np.prod(np.sign(found.allowed.range_at(windows.seconds[5]))) <= 0:
        return (
            "No rise can be told from this record's noise. If there is one, a quieter record or a larger effect would show it.",
            True,
        )
    if moved < FEWEST_STEPS * found.step:
        text = (
            f"The display moves in steps of {amount(found.step)} °C, and the difference moved by {amount(moved)} °C: "
            "too few steps to show a curve. Use a finer display, or aim for a larger effect."
        )
        return text, False
    low, high = (end / 60 for end in found.allowed.time_constant_s)
    if isfinite(high) and high < WIDEST_FACTOR * low and record_in_time_constants(found, windows) >= 1:
        return None, True
    return f"{_open(low, high)} {_what_record_would_do(found, windows, low)}", True


def _open(low, high):
    upper = f"up to {amount(high)} min" if isfinite(high) else "without end"
    return f"Curves with a time constant from {amount(low)} min {upper} fit it alike."


def _what_record_would_do(found, windows, low):
    watched = windows.response[1] - windows.perturbation[0]
    needed = ceil(WHOLE_RISE * max(low, min(found.fit.time_constant_s / 60, watched)))
    if needed > watched:
        return f"Watch for at least {needed} min after the change: three time constants show where it levels off."
    return "It is long enough, but its readings scatter too much. A quieter thermometer or a larger effect would do."


def record_in_time_constants(found, windows):
    """How many time constants of the fitted curve the record lasts once warming has begun."""
    return (windows.seconds[5] - found.fit.delay_s) / found.fit.time_constant_s


def diagnosis_of(found, residuals):
    """What the residuals show, in two or three sentences."""
    off = far_off(residuals)
    first = f", the first at minute {rounded(off[0] / 60, 1)}" if len(off) else ""
    strays = [f"{counted(len(off), 'reading lies', 'readings lie')} far off the curve{first}."] if len(off) else []
    return " ".join([pattern(found.misfit), _memory(found, residuals), *strays])


def pattern(misfit):
    """Whether one rise describes the record, from its `Misfit`."""
    if misfit.chance >= RARE:
        return "The residuals show no pattern beyond the noise: one rise describes this record."
    often = f"once in {1 / misfit.chance:,.0f} records" if misfit.chance > VERY_RARE else f"less than once in {1 / VERY_RARE:,.0f} records"
    return (
        f"The residuals swing further than noise would ({often}): one exponential does not describe this record. "
        "Something slower or quicker is in it, vessel and gas at two speeds, say, or a drift."
    )


def _memory(found, residuals):
    step = float(np.median(np.diff(residuals.index)))
    if found.correlation_s <= step:
        return "Neighbouring residuals do not agree more than by chance."
    return f"Neighbouring residuals agree for about {amount(found.correlation_s)} s: noise that lasts, so they are no independent looks."


def far_off(residuals):
    """Times (s) of the residuals that lie further off than noise reaches: 6 standard deviations, by the median absolute deviation."""
    sizes = np.abs(residuals.to_numpy() - np.median(residuals))
    spread = 1.4826 * np.median(sizes)
    return residuals.index.to_numpy()[sizes > FAR_OFF_SD * spread] if spread > 0 else np.array([])


def cautions_of(found, windows):
    """What to keep in mind about a curve: each caution one rule, with the number that set it off."""
    rules = (short(found, windows), two_speeds(found), drift_counts(found, windows))
    return tuple(caution for caution in rules if caution)


def short(found, windows):
    lasts = record_in_time_constants(found, windows)
    if lasts < SHORT_RECORD:
        text = f"The record lasts {rounded(lasts, 1)} time constants once warming has begun. Where the rise ends rests on the curve's form."
        return Caution("record-short", text)


def two_speeds(found):
    if found.misfit.chance < RARE:
        return Caution(
            "one-rise-too-few", "One rise does not describe this record. Take its numbers as a summary, and look at the residuals."
        )


def drift_counts(found, windows):
    moves = moved_by_drift(found, windows)
    low, high = found.allowed.range_at(inf)
    if abs(moves) > (high - low) / 2:
        text = (
            f"If the difference drifted by {USUAL_DRIFT_C_PER_MIN:g} °C a minute by itself, the rise would come out "
            f"{amount(abs(moves))} °C off, more than its range says. Let it settle longer before the change."
        )
        return Caution("drift-counts", text)


def moved_by_drift(found, windows):
    """By how much (°C) a drift of the difference of 0.01 °C a minute would move the fitted rise."""
    start_s, _, change_s, _, _, end_s = windows.seconds
    times = np.linspace(start_s, end_s, 200)
    ramp = (times - change_s) / 60 * USUAL_DRIFT_C_PER_MIN
    spot = found.fit.time_constant_s, found.fit.delay_s
    return fit_rise(times, found.fit.at(times) + ramp, start=spot, delay_s=found.fit.delay_s).rise - found.fit.rise


def curve_explained(curve):
    """The account of a `WarmingCurve`, one thought a line."""
    if curve.found is None:
        return f"There is no curve. {curve.reason}"
    return "\n".join((_form(curve), _laid(curve), _ranges(curve), _assumed(curve), curve.diagnosis, _end(curve)))


def _form(curve):
    return (
        "The curve is the baseline, then a rise that slows down: 63 % of it in the first time constant, 86 % after two, 95 % after three. "
        f"Here it begins {curve.delay.value_text} after the change."
    )


def _laid(curve):
    (start, _), (_, end) = curve.windows.baseline, curve.windows.response
    fit = curve.found.fit
    return (
        f"It was laid through {counted(len(curve.residuals), 'reading')} (minute {start:g} to {end:g}) so that the squares of their "
        "distances "
        f"are least. They lie about {amount(fit.scatter)} °C off it."
    )


def _ranges(curve):
    low, high = curve.found.allowed.range_at(inf)
    alone = independent_errors(curve.found.fit, curve.residuals.index.to_numpy(float))[1] * curve.found.factor
    times = f"{amount((high - low) / 2 / alone)} times " if alone > 0 and isfinite(alone) else ""
    return (
        f"Readings closer than about {amount(curve.found.correlation_s)} s agree by chance. So every curve was kept that such noise "
        "could turn "
        f"into this record; the range of the rise is {times}as wide as if each reading were a fresh look."
    )


def _assumed(curve):
    moves = amount(abs(moved_by_drift(curve.found, curve.windows)))
    held = "The range allows for drift" if curve.question.tolerance_c_per_min else "The range does not hold a drift"
    return (
        f"{held}: {USUAL_DRIFT_C_PER_MIN:g} °C a minute would move the rise by {moves} °C. A longer quiet time before the change shows it."
    )


def _end(curve):
    lasts = rounded(record_in_time_constants(curve.found, curve.windows), 1)
    determined = "The record determines the curve" if curve.determined else "The record does not determine the curve"
    return f"{determined}: it lasts {lasts} time constants after warming began. {curve.reason} The ranges hold {curve.condition}."
