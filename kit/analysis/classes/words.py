"""A class's result in words: its sentence, its cautions, its account."""

from math import isfinite

import numpy as np

from kit.estimate import amount
from kit.faults import Caution
from kit.statistics import coverage_factor
from kit.words import counted, listed

FEW_GROUPS = 4


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
    return " ".join([first, *(f"Without {share.name}: {share.without.text}." for share in effect.suspects)])


def class_cautions(effect):
    """What to keep in mind about a `ClassEffect`: each caution one rule, with the number that set it off."""
    rules = (*left_out(effect), suspects(effect), few(effect), shared_drift(effect), one_decides(effect), one_side(effect))
    return tuple(caution for caution in rules if caution)


def left_out(effect):
    return [Caution("left-out", f"{name} is left out. {why}") for name, why in effect.left_out]


def suspects(effect):
    if effect.suspects and isfinite(effect.mean.high):
        names = listed(share.name for share in effect.suspects)
        moves = max(abs(share.without.value - effect.mean.value) for share in effect.suspects)
        text = f"Look at {names} again. Leaving a group out moves the mean by up to {amount(moves)} °C. Report both, and find the cause."
        return Caution("suspect", text)


def few(effect):
    if len(effect.shares) < FEW_GROUPS:
        text = (
            f"{counted(len(effect.shares), 'group')} can't foretell what one more would find. From four groups on there is a range for it."
        )
        return Caution("few-groups", text)


def shared_drift(effect):
    if effect.allowance_c > effect.mean.half_width / 4:
        text = (
            f"All groups may be off alike by up to {amount(effect.allowance_c)} °C through drift. More groups don't shrink that. "
            "Let half of them swap their vessels, or record ten quiet minutes before the change."
        )
        return Caution("shared-drift", text)


def one_decides(effect):
    share = max(effect.shares, key=lambda each: each.weight)
    if len(effect.shares) > 2 and share.weight > 0.5:
        return Caution("one-decides", f"{share.name} alone carries {100 * share.weight:.0f} % of the weight. Look at the plain mean, too.")


def one_side(effect):
    moved = {name: side for name, side in effect.sides.items() if not side.holds(0)}
    if moved:
        told = listed(f"{name} by {amount(abs(side.value))} °C" for name, side in moved.items())
        return Caution(
            "one-side",
            f"Swapping the vessels changed the effect: {told} to each side. Place or vessel plays a part; the mean of both is free of it.",
        )


def class_explained(effect):
    """The account of a `ClassEffect`, one thought a line."""
    if not isfinite(effect.mean.high):
        return f"There is no class mean with a range. {effect.reason}"
    return "\n".join((_weights(effect), _spread(effect), _range(effect), _largest(effect), _hand(effect), *_next(effect)))


def _weights(effect):
    heavy, light = (extreme(effect.shares, key=lambda each: each.weight) for extreme in (max, min))
    return (
        "Each group counts by what it knows: the less its own chance and the differences between groups, the more. "
        f"{heavy.name} counts most ({100 * heavy.weight:.0f} %), {light.name} least ({100 * light.weight:.0f} %)."
    )


def _spread(effect):
    if effect.spread.value == 0:
        return (
            f"The groups lie no further apart than their own noise explains; a spread of up to {amount(effect.spread.high)} °C would "
            "still fit."
        )
    return f"The groups lie further apart than their own noise explains: their true values differ by about {effect.spread.text}."


def _range(effect):
    dof = len(effect.shares) - 1
    return (
        f"The range of the mean uses Student's t with {counted(dof, 'degree')} of freedom, as the spread itself is known from "
        f"{len(effect.shares)} groups only, and allows for {amount(effect.allowance_c)} °C of drift that all may share."
    )


def _largest(effect):
    weights = np.array([share.weight for share in effect.shares])
    noise = np.array([share.group.parts.error for share in effect.shares])
    factor = coverage_factor(effect.mean.level, effect.parts.dof)
    lines = {
        "differences between groups": (
            factor * effect.spread.value * np.sqrt((weights**2).sum()),
            "more groups, all working by the same steps",
        ),
        "each group's own noise": (factor * np.sqrt((weights**2 * noise**2).sum()), "longer windows, or more runs in each group"),
        "drift that all may share": (effect.allowance_c, "ten quiet minutes before the change, or half the groups with swapped vessels"),
        "the thermometers' scales": (factor * effect.parts.gain, "comparing each pair of thermometers at two temperatures"),
    }
    name, (size, remedy) = max(lines.items(), key=lambda line: line[1][0])
    return f"What makes the range widest is {name} (alone it would reach {amount(float(size))} °C). To shrink it: {remedy}."


def _hand(effect):
    return f"By hand, with all groups alike, the mean is {effect.plain_mean.text}."


def _next(effect):
    if isfinite(effect.next_group.high):
        yield (
            f"One more group, working alike, would measure {effect.next_group.range}: wider than the mean's range, as it is one group "
            "and not all."
        )
