"""Two results beside each other: the same within a margin that was chosen beforehand, different, or cannot tell."""

from dataclasses import dataclass
from math import ceil

from kit.analysis.curve import WarmingCurve
from kit.analysis.comparison.parts import parts_of, ranged
from kit.analysis.basis import refuse_question
from kit.estimate import Estimate, amount, places_for, rounded
from kit.faults import Caution, Fault
from kit.statistics import CANNOT_TELL, DIFFERENT, Equivalence, equivalence, Question, RISK, SAME, welch_dof
from kit.words import Account, plain, table_html


def compare(mine, reference, *, margin, level=0.95):
    """The `Comparison` of two results: two Effects, two WarmingCurves (their rises), a ClassEffect, or an Estimate from elsewhere.

    `margin` (°C): the largest difference that you would still call the same, chosen before looking. Two one-sided tests, each
    standing what drift may have done at its worst: a false 'same' at a true difference of the margin stays at or below 5 %. Method:
    `kit.statistics.twoonesided`. A Fault for a margin that is no positive number, a result beside itself, a curve beside an effect.
    """
    refuse_question(Question(level))
    refuse_margin(margin)
    refuse_pair(mine, reference)
    first, second = parts_of(mine), parts_of(reference)
    for parts, thing, name in ((first, mine, "Your"), (second, reference, "The reference's")):
        if not parts.known:
            return cannot_compare(
                mine, reference, margin, level, f"{name} warming has no value with a range. {getattr(thing, 'reason', '')}".strip()
            )
    errors = first.standard_error, second.standard_error
    dof, allowance = welch_dof(errors, (first.dof, second.dof)), first.allowance + second.allowance
    difference = ranged(first.value - second.value, (errors[0] ** 2 + errors[1] ** 2) ** 0.5, dof, allowance, level=level)
    test = equivalence(difference.value, difference.standard_error, dof, margin, bias=allowance)
    return Comparison(mine, reference, margin, difference, test, allowance, test.verdict, why(difference, test, margin))


@dataclass(frozen=True, eq=False)
class Comparison:
    """`difference`: mine minus the reference, °C. `verdict`: 'same within the margin', 'different' or 'cannot tell', with its `reason`.

    `test`: the two one-sided tests. `allowance_c`: how far drifts may have moved the difference, in both results together.
    """

    mine: object
    reference: object
    margin: float
    difference: Estimate
    test: Equivalence | None
    allowance_c: float
    verdict: str
    reason: str

    @property
    def tested(self):
        """The range that the verdict rests on: each end holds at 95 %, drift at its worst; an `Estimate` at 90 % in °C."""
        if self.test is None:
            return Estimate.undetermined(level=1 - 2 * RISK)
        value, reach = self.difference.value, self.test.reach
        return Estimate(value, self.difference.standard_error, value - reach, value + reach, 1 - 2 * RISK)

    @property
    def settles_c(self):
        """The smallest margin (°C) within which these two results would have been called the same; infinite where there is no range."""
        return max(abs(self.tested.low), abs(self.tested.high))

    @property
    def cautions(self):
        """What to keep in mind."""
        if self.test is None or self.allowance_c < self.test.reach / 2:
            return ()
        text = (
            f"What drift may have done makes up {amount(self.allowance_c)} °C of the {amount(self.test.reach)} °C to each side. "
            "Quiet minutes before the change shrink it, repeats do not."
        )
        return (Caution("drift-decides", text),)

    def explain(self):
        """A short plain account of the comparison, with these results' own numbers."""
        return Account(compared(self))

    def __str__(self):
        if self.test is None:
            return f"Cannot tell whether the two are the same. {self.reason}"
        verdict = f"{self.verdict.capitalize()} of {self.margin:g} °C" if self.verdict == SAME else self.verdict.capitalize()
        return f"{verdict}: mine minus the reference is {self.difference.text}."

    def _repr_html_(self):
        rows = [
            ("difference", self.difference.text),
            ("margin", f"{self.margin:g} °C"),
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
    """Raise a Fault for a result beside itself, or a curve's rise beside a change between windows."""
    if mine is reference:
        raise Fault("Both sides are the same result. Compare your run with another one, the reference run, say.")
    if isinstance(mine, Estimate) or isinstance(reference, Estimate):
        return
    if isinstance(mine, WarmingCurve) != isinstance(reference, WarmingCurve):
        raise Fault(
            "One side is a warming curve, the other is not. Its rise ends later than a response window: compare two curves, or two effects."
        )


def cannot_compare(mine, reference, margin, level, reason):
    """The `Comparison` that says only why there is none."""
    return Comparison(mine, reference, margin, Estimate.undetermined(level=level), None, 0.0, CANNOT_TELL, reason)


def why(difference, test, margin):
    """The reason of a verdict in one or two sentences."""
    places = places_for(test.reach, 2)
    ends = f"{rounded(difference.value - test.reach, places)} to {rounded(difference.value + test.reach, places)} °C"
    there = not difference.holds(0)
    if test.verdict == SAME:
        small = " There is a difference, but a smaller one than matters here." if there else ""
        return f"The whole tested range, {ends}, lies within {margin:g} °C of zero.{small}"
    if test.verdict == DIFFERENT:
        return f"The whole tested range, {ends}, lies further than {margin:g} °C from zero."
    size = " There is a difference; whether it is larger than the margin stays open." if there else ""
    needed = rounded(ceil((abs(difference.value) + test.reach) * 10**places) / 10**places, places)
    return (
        f"The tested range, {ends}, lies partly within the margin of {margin:g} °C and partly beyond it. These two could settle "
        f"{needed} °C.{size}"
    )


def compared(comparison):
    """The account of a `Comparison`, one thought a line."""
    if comparison.test is None:
        return f"There is no comparison. {comparison.reason}"
    difference, test, share = comparison.difference, comparison.test, comparison.allowance_c
    drift = f" and {amount(share)} °C for drift, which may have worked against each other in the two" if share else ""
    return "\n".join(
        (
            f"Mine minus the reference is {difference.value_text}. Chance in both together makes its standard uncertainty "
            f"{amount(difference.standard_error)} °C.",
            f"The question was not whether they differ at all, but whether by more than {comparison.margin:g} °C, which was fixed "
            "beforehand.",
            f"Two tests ask whether the truth could lie at either end of the margin. They allow {amount(test.reach - share)} °C for "
            f"chance{drift}.",
            comparison.reason,
            "To have a fair chance of 'same', the standard uncertainty should be a quarter of the margin: "
            f"{amount(comparison.margin / 4)} °C.",
        )
    )
