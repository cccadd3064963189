"""An effect's own account: how it was worked out, with this run's numbers, in words that a learner can follow."""

from math import isfinite

from kit.estimate import amount, places_for, rounded
from kit.units import about, difference, difference_in, span, stated, unit
from kit.words import account, counted, listed


def effect_explained(effect):
    """The account of an `Effect`, one thought a line."""
    if not isfinite(effect.warming.value):
        return account(f"There is no number. {effect.reason}")
    return account(_value(effect), _noise(effect), _drift(effect), _jump(effect), _parts(effect), _reach(effect))


def jump_told(jump):
    """What a `JumpSeen` is, and the range with it and without it."""
    minute, size = rounded(jump.at_min, 1), about(abs(jump.size_c))
    up = "up" if jump.size_c > 0 else "down"
    lasts = f"At minute {minute} the difference jumps {up} by {size} within seconds"
    if isfinite(jump.lasts_min):
        lasts = f"From minute {minute} the difference lies {size} {'higher' if jump.size_c > 0 else 'lower'} for about {amount(jump.lasts_min)} min"
    places = places_for(max(jump.with_it[1] - jump.with_it[0], 1e-3) / 2, 1)
    ranges = [span(low, high, places) for low, high in (jump.with_it, jump.without_it)]
    if ranges[0] == ranges[1]:
        return f"{lasts}; no warming does that. The range is the same with it and without it."
    return f"{lasts}; no warming does that. With it the range would be {ranges[0]}, without it {ranges[1]}; the range given holds both."


def _value(effect):
    (b_start, b_end), (r_start, r_end) = effect.windows.baseline, effect.windows.response
    treated, control = effect.treated_change.value, effect.control_change.value
    return (
        f"From the baseline ({b_start:g} to {b_end:g} min) to the response ({r_start:g} to {r_end:g} min) the treated vessel changed by "
        f"{difference(treated, 2)} and the control by {difference(control, 2)}. The effect is the first minus the second: {effect.warming.value_text}."
    )


def _noise(effect):
    noise = effect.noise
    worth = "about one independent reading" if noise.independent < 1.5 else f"about {noise.independent:.0f} independent ones"
    return (
        f"Readings closer than about {amount(noise.correlation_s)} s agree by chance, as the whole record shows. "
        f"So the {counted(noise.readings, 'reading')} of the baseline are worth {worth}."
    )


def _drift(effect):
    drift = effect.drift
    seen = "No drift can be seen before the change."
    if isfinite(drift.slope.value):
        places = places_for(drift.slope.standard_error, 2)
        slope = f"{rounded(difference_in(drift.slope.value), places)} ± {difference(drift.slope.standard_error, places)} a minute"
        seen = f"In the {amount(drift.seen_min)} min before the change the difference drifted by itself by {slope}."
    moved = span(drift.low * drift.minutes, drift.high * drift.minutes, places_for(drift.allowance_c, 2)) if drift.allowance_c else f"0 to 0 {unit()}"
    return f"{seen} {_source(drift)} So drift may have added {moved} between the windows."


def _source(drift):
    if drift.bent:
        return f"It ran no straight line but wandered by {about(drift.swing_c)}, and may do so again."
    if drift.measured:
        return "That may go on, fade, or turn back at half its speed."
    return f"The record can't show a drift as small as the tolerance of {stated(drift.high)} a minute, so that is allowed for, either way."


def _jump(effect):
    return jump_told(effect.jump) if effect.jump else ""


def _parts(effect):
    largest, *others = effect.budget
    return f"The largest part of the range is {largest}; the others are {listed(others)}. To shrink it: {largest.remedy}."


def _reach(effect):
    return f"{effect.condition} It says how much warmer, not why."
