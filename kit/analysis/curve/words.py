"""What a warming curve's numbers mean in words: how soon, whether it was still rising, what the drawn rise leaves over."""

from math import isfinite

import numpy as np

from kit.estimate import amount, rounded
from kit.faults import Caution
from kit.units import about, difference
from kit.words import counted

# A time that is known to less than half of itself, or to a quarter of a minute, is known.
NARROW_MIN, LONG_ENOUGH_MIN = 0.5, 2
# How rarely noise alone must leave such residuals before a pattern is said to be in them.
RARE, VERY_RARE, FAR_OFF_SD, WAVE_SHARE = 0.01, 1e-4, 6, 0.5


def why_undetermined(effect, value, low, high):
    """Why the record does not show the time to 63 % (`value`, from `low` to `high`, minutes), in a sentence or two; None where it does."""
    watched = effect.windows.response[0] - effect.windows.perturbation[0]
    if effect.jump:
        return f"The jump at minute {rounded(effect.jump.at_min, 1)} is mixed into the rise. Run again without it."
    if effect.warming.holds(0):
        return "No rise can be told from this record's noise and drift, so there is no way of which 63 % could be reached."
    if not isfinite(value) or not isfinite(low) or high >= watched - 1e-6:
        return (
            "The readings can't show that 63 % of the rise was reached before the response. Watch for longer, or check that the change is marked "
            "where it was."
        )
    if high - low > max(value, NARROW_MIN):
        return f"It may be anything from {amount(low)} to {amount(high)} min. Quieter or more frequent readings, or a larger effect, would narrow it."
    return None


def how_soon(curve):
    """How soon it warmed, and whether it goes on."""
    if not isfinite(curve.rise.value):
        return f"There is no curve. {curve.reason}"
    if curve.determined:
        return f"It took {curve.time_to_63.text} to come 63 % of the way.{ending(curve)}"
    at_least = f" ({curve.time_to_63.range})" if isfinite(curve.time_to_63.low) else ""
    return f"How long it took to come 63 % of the way is not determined{at_least}. {curve.reason}{ending(curve)}"


def ending(curve):
    """What the last minutes show, with a space before it; nothing where they show nothing."""
    if curve.still_rising:
        far = curve.rise.low if curve.rise.low > 0 else -curve.rise.high
        word = "rising: in the end it is at least" if curve.rise.low > 0 else "falling: in the end it is lower by at least"
        return f" It was still {word} {difference(far, 2)}."
    return f" By the end it was going back: {curve.late.text} in the last {LONG_ENOUGH_MIN} min." if curve.falling_again else ""


def diagnosis_of(found, residuals):
    """What the residuals of the drawn rise show, in two or three sentences."""
    off = far_off(residuals)
    first = f", the first at minute {rounded(off[0] / 60, 1)}" if len(off) else ""
    strays = [f"{counted(len(off), 'reading lies', 'readings lie')} far off the drawn rise{first}."] if len(off) else []
    return " ".join([pattern(found.misfit, found.wave), _memory(found, residuals), *strays])


def pattern(misfit, wave):
    """Whether one rise describes the record, from its `Misfit`, and whether a `Wave` is left."""
    if misfit.chance < RARE:
        often = f"once in {1 / misfit.chance:,.0f} records" if misfit.chance > VERY_RARE else f"less than once in {1 / VERY_RARE:,.0f} records"
        return (
            f"The residuals of the drawn rise swing further than noise would ({often}): one speed does not describe this record. "
            "Something slower or quicker is in it, vessel and gas, say, or a drift."
        )
    if wave.share > WAVE_SHARE:
        return f"The residuals of the drawn rise swing to and fro about once in {amount(wave.period_s / 60)} min: a pattern, and not one of warming."
    return "One speed describes this record as well as several would, and no wave stands out in the residuals."


def _memory(found, residuals):
    step = float(np.median(np.diff(residuals.index)))
    if found.correlation_s <= step:
        return "Neighbouring residuals do not agree more than by chance."
    return f"Neighbouring residuals agree for about {amount(found.correlation_s)} s: noise that lasts, so they are not independent readings."


def far_off(residuals):
    """Times (s) of the residuals that lie further off than noise reaches: 6 standard deviations, by the median absolute deviation."""
    sizes = np.abs(residuals.to_numpy() - np.median(residuals))
    spread = 1.4826 * np.median(sizes)
    return residuals.index.to_numpy()[sizes > FAR_OFF_SD * spread] if spread > 0 else np.array([])


def cautions_of(curve):
    """What to keep in mind about a curve beyond what its effect calls for."""
    if curve.falling_again:
        text = f"The difference was going back in the last {LONG_ENOUGH_MIN} min ({curve.late.text}): gas that leaves does that. Read earlier."
        return (Caution("falling-again", text),)
    return ()


def curve_explained(curve):
    """The account of a `WarmingCurve`, one thought a line."""
    if curve.found is None:
        return f"There is no curve. {curve.reason}"
    return "\n".join((_far(curve), _soon(curve), *_late(curve), _drawn(curve), curve.diagnosis, curve.condition))


def _far(curve):
    return (
        f"How far: the mean of the response less that of the baseline, {curve.rise.text}. It is the effect, and its range is the effect's: no formula "
        "for the curve is in it."
    )


def _soon(curve):
    time = f"That was {curve.time_to_63.text} after the change." if curve.determined else f"Here that time is not determined. {curve.reason}"
    return (
        f"How soon: the level of the difference was followed until 63 % of that way was reached. {time} Why 63 %: a thing that warms at one speed has "
        "then lasted one time constant."
    )


def _late(curve):
    if curve.late is not None:
        told = "still on its way" if curve.still_rising else "going back" if curve.falling_again else "no change that can be told from none"
        yield f"At the end: the response lies {curve.late.text} above a like window {LONG_ENOUGH_MIN} min before it: {told}."


def _drawn(curve):
    drawn = curve.found.drawn
    return (
        "The drawn rise is a picture: a level, and after a delay a rise of one speed, laid through the readings by least squares. They lie about "
        f"{about(drawn.scatter)} off it. Vessels warm at more than one speed, so its numbers are not given."
    )
