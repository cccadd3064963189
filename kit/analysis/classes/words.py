"""A class's result in words: its sentence, its cautions, its account."""

from math import isfinite

import numpy as np

from kit.faults import Caution
from kit.rounding import amount
from kit.statistics import coverage_factor
from kit.units import about, span
from kit.words import counted, some

FEW_GROUPS = 4
# Of groups and runs so many are told one by one; how many more there are is said. A table holds more rows before it is cut.
MOST_NAMED, MOST_ROWS = 12, 40


def why_class(mean, count):
    """'warmer', 'cooler' or 'cannot tell', and the reason."""
    if count == 1:
        return "cannot tell", "One group cannot speak for a class: nobody sees how much groups differ. Add two more."
    if count == 2:
        return "cannot tell", "Two groups cannot show how much groups differ, so their mean has no range. Add one more."
    if mean.low > 0:
        return "warmer", "The whole range of the class mean lies above zero."
    if mean.high < 0:
        return "cooler", "The whole range of the class mean lies below zero."
    return "cannot tell", "The range of the class mean holds zero. More groups, or steadier runs, would make it narrower."


def class_sentence(effect):
    """The result in a sentence or two."""
    groups = counted(len(effect.shares), "group")
    if not isfinite(effect.mean.high):
        average = " on average" if len(effect.shares) > 1 else ""
        return f"{groups}, {effect.mean.value_text}{average}. {effect.reason}"
    if effect.verdict == "cannot tell":
        return f"{groups} together cannot tell whether the treated vessels warmed more: {effect.mean.text}."
    size, word = (effect.mean.scaled(-1, "°C"), "less") if effect.verdict == "cooler" else (effect.mean, "more")
    first = f"The treated vessels of {groups} warmed by {size.value_text} {word} than the controls ({100 * size.level:g} %: {size.range})."
    named, more = effect.suspects[:MOST_NAMED], len(effect.suspects) - MOST_NAMED
    rest = [f"{counted(more, 'more group')} lie far off, too."] if more > 0 else []
    return " ".join([first, *(f"Without {share.name}: {share.without.text}." for share in named), *rest])


def class_cautions(effect):
    """What to keep in mind about a `ClassEffect`: each caution one rule, with the number that set it off."""
    rules = (
        *left_out(effect), suspects(effect), few(effect), shared_drift(effect), one_decides(effect), place(effect), one_side(effect),
        who_shared(effect),
    )  # fmt: skip
    return tuple(caution for caution in rules if caution)


def left_out(effect):
    more = len(effect.left_out) - MOST_NAMED
    rest = [Caution("left-out", f"{counted(more, 'more run')} are left out, too; left_out names each with its reason.")] if more > 0 else []
    return [*(Caution("left-out", f"{name} is left out. {why}") for name, why in effect.left_out[:MOST_NAMED]), *rest]


def suspects(effect):
    if effect.suspects and isfinite(effect.mean.high):
        names = some(share.name for share in effect.suspects)
        moves = max(abs(share.without.value - effect.mean.value) for share in effect.suspects)
        text = (
            f"Look at {names} again. Leaving a group out moves the mean by up to {about(moves)}. Report both, and find the cause: "
            "a swap of the vessels that nobody wrote down looks so, too."
        )
        return Caution("suspect", text)


def few(effect):
    if len(effect.shares) < FEW_GROUPS:
        text = (
            f"{counted(len(effect.shares), 'group')} can't predict what one more would find. From four groups on there is a range for it."
        )
        return Caution("few-groups", text)


def shared_drift(effect):
    if effect.allowance_c > effect.mean.half_width / 4:
        text = (
            f"All groups may be off alike by up to {about(effect.allowance_c)} through drift. More groups don't shrink that. "
            f"{drift_remedy(effect)}"
        )
        return Caution("shared-drift", text)


def drift_remedy(effect):
    """What would shrink the drift that all may share, for what this class has not done yet."""
    unmeasured = [share.name for share in effect.shares if not isfinite(share.group.parts.carried_error)]
    advice = [] if swapped(effect) else ["let half of them swap their vessels"]
    if unmeasured:
        advice.append(f"record ten quiet minutes before the change (so far not in {some(unmeasured)}, or not quiet enough)")
    text = " or ".join(advice) or "let the differences run quieter before the change"
    return f"{text[0].upper()}{text[1:]}."


def swapped(effect):
    """Did some groups swap their vessels?"""
    return any(share.group.side < 1 for share in effect.shares)


def one_decides(effect):
    share = max(effect.shares, key=lambda each: each.weight)
    if len(effect.shares) > 2 and share.weight > 0.5:
        return Caution("one-decides", f"{share.name} alone carries {100 * share.weight:.0f} % of the weight. Look at the plain mean, too.")


def one_side(effect):
    moved = {name: side for name, side in effect.swaps.items() if not side.holds(0)}
    if moved:
        told = some(f"{name} by {about(abs(side.value))}" for name, side in moved.items())
        return Caution(
            "one-side",
            f"Swapping the vessels changed the effect: {told} to each side. Place or vessel plays a part; the mean of both is free of it.",
        )


def place(effect):
    """What place and vessel do, told apart by the groups that swapped."""
    if effect.side and not effect.side.holds(0):
        text = (
            f"Place and vessel alone make one of the two {about(abs(effect.side.value))} warmer ({100 * effect.side.level:g} %: "
            f"{effect.side.range}). The class mean is free of it, as some groups swapped their vessels."
        )
        return Caution("place", text)
    if swapped(effect) and effect.side is None and len(effect.shares) > 1 and not effect.swaps:
        text = "Some groups swapped their vessels, but too few groups are there to tell the place from the gas. Four or more can."
        return Caution("place-unknown", text)


def who_shared(effect):
    """Groups that share a pair of thermometers err alike, and nobody said who did."""
    if effect.shared_files:
        names = some(effect.shared_files)
        text = f"The runs of {names} come from one file. If they share their thermometers, too, say so: thermometers={{...}}. They would err alike."
        return Caution("one-file", text)
    if not effect.asked and len(effect.shares) > 2:
        text = (
            'Did groups share a pair of thermometers? They would err alike, and the range would be too narrow. Say who: thermometers={...}, '
            'or thermometers="own".'
        )
        return Caution("thermometers", text)


def class_explained(effect):
    """The account of a `ClassEffect`, one thought a line."""
    if not isfinite(effect.mean.high):
        return f"There is no class mean with a range. {effect.reason}"
    return "\n".join((_weights(effect), _spread(effect), _range(effect), _largest(effect), _hand(effect), *_next(effect)))


def _weights(effect):
    heavy, light = (extreme(effect.shares, key=lambda each: each.weight) for extreme in (max, min))
    return (
        "Each group counts by what it knows: the less its own chance and the differences between groups, the more. "
        f"{heavy.name} counts most ({percent(heavy.weight)}), {light.name} least ({percent(light.weight)})."
    )


def percent(share):
    """A share in words, whole per cents: '12 %', '0.02 %' where it is less than one."""
    return f"{100 * share:.0f} %" if share >= 0.01 else f"{amount(100 * share, 1)} %"


def _spread(effect):
    if effect.spread.value == 0:
        return (
            f"The groups lie no further apart than their own noise explains; a spread of up to {about(effect.spread.high)} would "
            "still fit."
        )
    mixed = swapped(effect) and effect.side is None
    rest = " Part of that may be place and vessel, as some swapped." if mixed else ""
    return f"The groups lie further apart than their own noise explains: their true values differ by about {effect.spread.text}.{rest}"


def _range(effect):
    side = " One degree more went into telling the place from the gas." if effect.side else ""
    drift = effect.mean.parts
    ends = span(drift.drift_low, drift.drift_high, 2)
    cancels = "; drift of place and vessel cancels, as some swapped" if swapped(effect) else ""
    shared = f", and allows for {ends} of drift that all may share" if effect.allowance_c else cancels
    return (
        f"The range of the mean uses Student's t with {counted(drift.dof, 'degree')} of freedom, as the spread itself is known from "
        f"{len(effect.shares):,} groups only{shared}.{side}"
    )


def _largest(effect):
    weights = np.array([share.weight for share in effect.shares])
    noise = np.array([share.group.parts.error for share in effect.shares])
    factor = coverage_factor(effect.mean.level, effect.mean.parts.dof)
    lines = {
        "differences between groups": (
            factor * effect.spread.value * np.sqrt((weights**2).sum()),
            "more groups, or finding out why they differ",
        ),
        "each group's own noise": (factor * np.sqrt((weights**2 * noise**2).sum()), "longer windows, or more runs in each group"),
        "drift that all may share": (effect.allowance_c, drift_remedy(effect).rstrip(".").lower() if effect.allowance_c else ""),
        "the thermometers' scales": (factor * effect.mean.parts.gain, "comparing each pair of thermometers at two temperatures"),
    }
    name, (size, remedy) = max(lines.items(), key=lambda line: line[1][0])
    return f"What makes the range widest is {name} (alone it would reach {about(float(size))}). To shrink it: {remedy}."


def _hand(effect):
    return f"By hand, with all groups alike, the mean is {effect.plain_mean.text}."


def _next(effect):
    if isfinite(effect.next_group.high):
        yield (
            f"One more group, working alike and its vessels as usual, would measure {effect.next_group.range} "
            f"({100 * effect.next_group.level:g} %): one group, and not the mean of all."
        )
