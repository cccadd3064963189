"""An effect's own account: how it was worked out, with this run's numbers, in words that a learner can follow."""

from math import isfinite

from kit.estimate import amount, rounded
from kit.words import account, counted, listed


def effect_explained(effect):
    """The account of an `Effect`, one thought a line."""
    if not isfinite(effect.warming.value):
        return account(f"There is no number. {effect.reason}")
    return account(_value(effect), _noise(effect), _drift(effect), _parts(effect), _reach(effect))


def _value(effect):
    (b_start, b_end), (r_start, r_end) = effect.windows.baseline, effect.windows.response
    treated, control = effect.treated_change.value, effect.control_change.value
    return (
        f"From the baseline ({b_start:g} to {b_end:g} min) to the response ({r_start:g} to {r_end:g} min) the treated vessel changed by "
        f"{rounded(treated, 2)} °C and the control by {rounded(control, 2)} °C. The effect is the first minus the second: {effect.warming.value_text}."
    )


def _noise(effect):
    noise = effect.noise
    looks = "about one independent look" if noise.looks < 1.5 else f"about {noise.looks:.0f} independent looks"
    return (
        f"Readings closer than about {amount(noise.correlation_s)} s agree by chance, as the whole record shows. "
        f"So the {counted(noise.readings, 'reading')} of the baseline hold {looks}."
    )


def _drift(effect):
    drift = effect.drift
    seen = f"In the {amount(drift.seen_min)} min before the change the difference drifted by itself by {drift.slope} a minute."
    seen = seen.replace("°C/min a minute", "°C a minute") if isfinite(drift.slope.value) else "No drift can be seen before the change."
    source = "measured there" if drift.measured else "the tolerance, as the record can't show less"
    return f"{seen} The range allows for {amount(drift.bound)} °C a minute ({source}), which makes {amount(drift.allowance_c)} °C between the windows."


def _parts(effect):
    largest, *others = effect.budget
    return f"The largest part of the range is {largest}; the others are {listed(others)}. To shrink it: {largest.remedy}."


def _reach(effect):
    return f"The range holds {effect.condition}. It says how much warmer, not why."
