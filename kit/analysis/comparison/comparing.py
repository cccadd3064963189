"""Two results beside each other: the same within a margin that was chosen beforehand, different, or cannot tell."""

from dataclasses import dataclass
from math import ceil

from kit.analysis.basis import refuse_question
from kit.analysis.comparison.numbers import number_of
from kit.estimate import Estimate, places_for, rounded
from kit.faults import Caution, Fault
from kit.settings import or_class
from kit.statistics import BARE_MIN, CANNOT_TELL, DIFFERENT, difference_of, Equivalence, equivalence, parts_of, Terms, ranged, RISK, SAME
from kit.units import about, difference_in, span, stated, unit
from kit.words import account, plain, table_html


def compare(mine, reference, *, margin, level=0.95, tolerance_c_per_min=None):
    """The `Comparison` of two results: two Effects, two WarmingCurves (their rises), a ClassEffect, or an Estimate from elsewhere.

    `margin` (°C): the largest difference that you would still call the same, chosen before looking. Two one-sided tests, each
    holding whatever drift may have done: a false 'same' at a true difference of the margin stays at or below 5 %. An Estimate that does
    not say what its range is made of may have drifted by `tolerance_c_per_min` (None: the class's). Method: `kit.statistics.ranges.twoonesided`.
    A Fault for a margin that is no positive number, or for a result beside itself.
    """
    tolerance = or_class(tolerance_c_per_min, "tolerance_c_per_min")
    refuse_question(Terms(level, tolerance))
    refuse_margin(margin)
    refuse_pair(mine, reference)
    numbers = [number_of(each) for each in (mine, reference)]
    parts = [parts_of(each, tolerance) for each in numbers]
    for number, made, thing, name in zip(numbers, parts, (mine, reference), ("Your", "The reference's")):
        if not (number.value == number.value and made.known):
            why_not = f"{name} warming has no value with a range. {getattr(thing, 'reason', '')}".strip()
            return cannot_compare(mine, reference, margin, level, why_not)
    difference = ranged(numbers[0].value - numbers[1].value, difference_of(*parts), level=level)
    drift = difference.parts.drift_low, difference.parts.drift_high
    test = equivalence(difference.value, difference.standard_error, difference.parts.dof, margin, drift=drift)
    bare = tuple(name for number, name in zip(numbers, ("mine", "the reference")) if number.parts is None)
    return Comparison(mine, reference, margin, difference, test, bare, test.verdict, why(difference, test, margin))


@dataclass(frozen=True, eq=False)
class Comparison:
    """`difference`: mine minus the reference, °C. `verdict`: 'same within the margin', 'different' or 'cannot tell', with its `reason`.

    `test`: the two one-sided tests. `bare`: which of the two did not say what its range is made of, 'mine' or 'the reference'.
    """

    mine: object
    reference: object
    margin: float
    difference: Estimate
    test: Equivalence | None
    bare: tuple
    verdict: str
    reason: str

    @property
    def tested(self):
        """The range that the verdict rests on: each end holds at 95 %, drift at its worst; an `Estimate` at 90 % in °C."""
        if self.test is None:
            return Estimate.undetermined(level=1 - 2 * RISK)
        return Estimate(self.difference.value, self.difference.standard_error, self.test.low, self.test.high, 1 - 2 * RISK)

    @property
    def allowance_c(self):
        """How far drift may have moved the difference at most, in both results together, °C."""
        parts = self.difference.parts
        return max(-parts.drift_low, parts.drift_high) if parts else 0.0

    @property
    def drift_decides(self):
        """Is it drift, more than chance, that makes the tested range wide?"""
        parts = self.difference.parts
        return parts is not None and parts.drift_high - parts.drift_low > self.tested.half_width

    @property
    def settles_c(self):
        """The smallest margin (°C) within which these two results would have been called the same; infinite where there is no range."""
        return max(abs(self.tested.low), abs(self.tested.high))

    @property
    def cautions(self):
        """What to keep in mind."""
        return tuple(caution for caution in (drift_decides(self), bare(self)) if caution)

    def explain(self):
        """A short plain account of the comparison, with these results' own numbers."""
        return compared(self)

    def __str__(self):
        if self.test is None:
            return f"Cannot tell whether the two are the same. {self.reason}"
        verdict = f"{self.verdict.capitalize()} of {stated(self.margin)}" if self.verdict == SAME else self.verdict.capitalize()
        return f"{verdict}: mine minus the reference is {self.difference.text}."

    def _repr_html_(self):
        rows = [
            ("difference", self.difference.text),
            ("margin", stated(self.margin)),
            ("tested range", self.tested.range),
            ("why", self.reason),
        ]
        return table_html([*rows, *(("mind", each) for each in self.cautions)], str(self))

    def to_dict(self):
        """What JSON can keep; mine and the reference as the sentences they print."""
        parts = ("margin", "difference", "test", "allowance_c", "verdict", "reason", "cautions")
        kept = {name: plain(getattr(self, name)) for name in parts}
        return {"mine": str(self.mine), "reference": str(self.reference), **kept, "sentence": str(self)}


def refuse_margin(margin):
    """Raise a Fault unless `margin` is a positive number."""
    try:
        fits = 0 < float(margin) < float("inf")
    except (TypeError, ValueError):
        fits = False
    if not fits:
        raise Fault(f"The margin is the largest difference you would still call the same, in °C: 0.3, say. It was given {margin!r}.")


def refuse_pair(mine, reference):
    """Raise a Fault for a result beside itself."""
    if mine is reference:
        raise Fault("Both sides are the same result. Compare your run with another one, the reference run, say.")


def cannot_compare(mine, reference, margin, level, reason):
    """The `Comparison` that says only why there is none."""
    return Comparison(mine, reference, margin, Estimate.undetermined(level=level), None, (), CANNOT_TELL, reason)


def drift_decides(comparison):
    if comparison.drift_decides:
        text = (
            f"Drift may have moved the difference by up to {about(comparison.allowance_c)}, and that makes most of the tested range. "
            "A difference that is known to be steady before the change shrinks it, repeats alone do not."
        )
        return Caution("drift-decides", text)


def bare(comparison):
    if comparison.bare:
        name = " and ".join(comparison.bare)
        text = (
            f"What the range of {name} is made of is not said. So it is taken for chance alone, and a drift of the tolerance over "
            f"{BARE_MIN:g} min is allowed for on top. Give the effect itself, if you have it."
        )
        return Caution("bare", text[0].upper() + text[1:])


def why(difference, test, margin):
    """The reason of a verdict in one or two sentences."""
    places = places_for((test.high - test.low) / 2, 2)
    ends = span(test.low, test.high, places)
    there = not difference.holds(0)
    if test.verdict == SAME:
        small = " There is a difference, but a smaller one than matters here." if there else ""
        return f"The whole tested range, {ends}, lies within {stated(margin)} of zero.{small}"
    if test.verdict == DIFFERENT:
        return f"The whole tested range, {ends}, lies further than {stated(margin)} from zero."
    size = " There is a difference; whether it is larger than the margin stays open." if there else ""
    needed = rounded(ceil(difference_in(max(-test.low, test.high)) * 10**places) / 10**places, places)
    part = "reaches to both sides of zero beyond" if test.low < -margin and test.high > margin else "lies partly within and partly beyond"
    return f"The tested range, {ends}, {part} the margin of {stated(margin)}. These two could settle {needed} {unit()}.{size}"


def compared(comparison):
    """The account of a `Comparison`, one thought a line."""
    if comparison.test is None:
        return account(f"There is no comparison. {comparison.reason}")
    difference, parts = comparison.difference, comparison.difference.parts
    drift = f" On top of that drift may have added {span(parts.drift_low, parts.drift_high, 2)}." if comparison.allowance_c else ""
    return account(
        f"Mine minus the reference is {difference.value_text}. Chance in both together makes its standard uncertainty "
        f"{about(difference.standard_error)}.{drift}",
        f"The question was not whether they differ at all, but whether by more than {stated(comparison.margin)}, which was fixed beforehand.",
        "Two tests ask whether the truth could lie at either end of the margin. Together they rest on a range at 90 %: "
        f"{comparison.tested.range}.",
        comparison.reason,
        needed(comparison),
    )


def needed(comparison):
    """What would give a fair chance of 'same', from what stands in the way of it."""
    parts = comparison.difference.parts
    left = comparison.margin - (parts.drift_high - parts.drift_low) / 2
    if left <= 0:
        return f"With so much drift to allow for no two runs alike could be called the same within {stated(comparison.margin)}. Measure the drift first."
    drift = ", with the drift that has to be allowed for" if comparison.allowance_c else ""
    return f"To have a fair chance of 'same'{drift}, the standard uncertainty of the difference should be at most {about(left / 4)}."
