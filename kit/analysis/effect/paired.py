"""How much more the treated vessel warmed than the control: the kit's main question, answered with a range that holds."""

from dataclasses import dataclass, replace
from functools import cached_property
from math import isfinite

import numpy as np

from kit.analysis.basis import NO_READING, record_of, refuse_question, why_no_number
from kit.analysis.effect.budget import Drift, JumpSeen, ReadingNoise, budget_of
from kit.analysis.effect.cautions import effect_cautions
from kit.analysis.effect.words import effect_explained
from kit.estimate import Estimate, rounded
from kit.faults import Fault
from kit.records import Run, Windows
from kit.settings import or_class
from kit.statistics import coverage_factor, Terms, single_effect, SingleEffect, vessel_changes, within
from kit.units import difference
from kit.words import plain, table_html


def paired_effect(run, windows, *, level=0.95, tolerance_c_per_min=None, gain_uncertainty=None, resolution_c=None):
    """The `Effect` of the perturbation: how much more the treated vessel changed than the control, from baseline to response.

    The interval holds at `level` on records with autocorrelated noise, coarse displays and few readings, as long as the difference drifts
    by itself by no more than `tolerance_c_per_min` (None: the class's, 0.01 where none is set), or by what the record before the perturbation shows
    (see `Effect.condition`).
    `gain_uncertainty`: relative standard uncertainty of one scale against the other (None: the run's own). `resolution_c`: the
    display's step in °C (None: the smallest difference between two readings). Method: `kit.statistics.effect.paired`.
    A Fault for windows outside the record or without readings, and for settings that can't be; 'cannot tell' for a record with no number in it.
    """
    tolerance = or_class(tolerance_c_per_min, "tolerance_c_per_min")
    question = Terms(level, tolerance, run.gain_uncertainty if gain_uncertainty is None else gain_uncertainty, resolution_c)
    refuse_question(question)
    record = record_of(run, windows)
    why_not = why_no_number(record)
    effect = without_number(run, windows, question, why_not) if why_not else with_number(run, windows, question, record)
    return replace(effect, cautions=effect_cautions(effect, record))


def quick_warming(run, windows):
    """The effect's value alone, in °C: what `paired_effect` gives as `warming.value`, at once. For a view that follows a moving hand.

    No uncertainty: let `paired_effect` follow when the hand rests. A Fault for a window without a reading of both vessels.
    """
    seconds, treated, control = (each.to_numpy() for each in (run.readings.index, run.readings["treated"], run.readings["control"]))
    before, after = (_mean(seconds, treated, control, (name, getattr(windows, name))) for name in ("baseline", "response"))
    return after - before


@dataclass(frozen=True, eq=False)
class Effect:
    """The change of (treated - control) from baseline to response, °C.

    `warming`: the effect; its interval holds the allowance for drift and may be lopsided, its standard error holds none. `noise`, `drift`: what
    was found or assumed of both. `jump`: a jump that no warming makes, or None. `budget`: what makes the range wide, largest first.
    `treated_change`, `control_change`: each vessel by itself. `verdict`: 'warmer', 'cooler' or 'cannot tell', with its `reason`. `cautions`:
    what to keep in mind. `found`: what the statistics found, for the curve. `explain()` tells how it was worked out.
    """

    run: Run
    windows: Windows
    question: Terms
    warming: Estimate
    noise: ReadingNoise | None
    drift: Drift | None
    jump: JumpSeen | None
    budget: tuple
    verdict: str
    reason: str
    found: SingleEffect | None = None
    cautions: tuple = ()

    @cached_property
    def changes(self):
        """What the treated vessel and the control did by themselves, two Estimates; worked out when first asked for."""
        if not isfinite(self.warming.value):
            return self.warming, self.warming
        record = record_of(self.run, self.windows)
        found = vessel_changes(record.layout, record.vessels, self.question)
        return tuple(Estimate.from_error(*each, level=self.question.level) for each in zip(*found))

    @property
    def treated_change(self):
        """By how much the treated vessel changed from baseline to response, °C."""
        return self.changes[0]

    @property
    def control_change(self):
        """By how much the control changed, °C."""
        return self.changes[1]

    @property
    def comparable(self):
        """The number that other results can be compared and pooled with."""
        return self.warming

    @property
    def condition(self):
        """Under which condition the range holds, in sentences, to be read beside the number."""
        return self.drift.condition if self.drift else "There is no range."

    def explain(self):
        """A short plain account of how the range was worked out, with this run's own numbers."""
        return effect_explained(self)

    def __str__(self):
        if not isfinite(self.warming.value):
            return f"Cannot tell how much more the treated vessel warmed. {self.reason}"
        if self.verdict == "cannot tell":
            return f"Cannot tell whether the treated vessel warmed more than the control: {self.warming.text}."
        if self.verdict == "cooler":
            return f"The treated vessel warmed by {self.warming.scaled(-1, self.warming.unit).text} less than the control."
        return f"The treated vessel warmed by {self.warming.value_text} more than the control ({100 * self.warming.level:g} %: {self.warming.range})."

    def _repr_html_(self):
        rows = [("treated changed by", self.treated_change.text), ("control changed by", self.control_change.text), ("holds", self.condition)]
        return table_html([*rows, ("why", self.reason), *(("mind", each) for each in self.cautions)], str(self))

    def to_dict(self):
        """What JSON can keep: all but the readings, which the run's SHA-256 stands for."""
        parts = ("windows", "question", "warming", "treated_change", "control_change", "noise", "drift", "jump", "budget", "verdict", "reason", "cautions")
        kept = {name: plain(getattr(self, name)) for name in parts}
        return {"run": self.run.name, "sha256": self.run.source.sha256, **kept, "condition": self.condition, "sentence": str(self)}


def with_number(run, windows, question, record):
    """The `Effect` of a `Record` that holds one, cautions still to come; one without a number where a jump has spoilt the baseline."""
    one = single_effect(record.layout, record.seconds, record.vessels, windows.seconds, question)
    jump = jump_of(one)
    if one.lost:
        return without_number(run, windows, question, spoilt(jump))
    parts, noise, drift = one.found.parts_at(0), noise_of(one.found, record.layout, windows), drift_of(one.found, record.layout, question)
    warming = Estimate(one.found.value[0].item(), one.found.error[0].item(), one.low, one.high, question.level, parts=parts)
    budget = budget_of(parts, noise, drift, jump, question.level)
    return Effect(run, windows, question, warming, noise, drift, jump, budget, *verdict(warming, budget), one)


def without_number(run, windows, question, reason):
    """The `Effect` that says only why there is none."""
    unknown = Estimate.undetermined(level=question.level)
    return Effect(run, windows, question, unknown, None, None, None, (), "cannot tell", reason)


def spoilt(jump):
    """Why a jump in the baseline leaves no number."""
    return (
        f"At minute {rounded(jump.at_min, 1)} the difference jumps by {difference(abs(jump.size_c), 2)} within seconds, in or near the baseline, "
        "and no quiet minute lies before that. Move the baseline, or run again."
    )


def jump_of(one):
    """The `JumpSeen` of a `SingleEffect`, or None."""
    if one.jump is None:
        return None
    found, jump = one.found, one.jump
    ranges = (found.low[0].item(), found.high[0].item()), one.without
    return JumpSeen(jump.at_s / 60, jump.length_s / 60, jump.size, *ranges)


def verdict(warming, budget):
    """'warmer', 'cooler' or 'cannot tell', and the reason in a sentence."""
    if warming.low > 0:
        return "warmer", "The whole range lies above zero."
    if warming.high < 0:
        return "cooler", "The whole range lies below zero."
    return "cannot tell", f"The range holds zero. Its largest part is {budget[0]}; what would shrink it: {budget[0].remedy}."


def noise_of(found, layout, windows):
    """The `ReadingNoise` of one run. Readings are independent at twice the correlation time (the integral of exp(-|t| / tc))."""
    readings, memory_s = layout.baseline.stop - layout.baseline.start, found.correlation_s[0].item()
    independent = float(np.clip(60 * np.ptp(windows.baseline) / (2 * memory_s), 1, readings))
    return ReadingNoise(found.sd[0].item(), memory_s, found.white_share[0].item(), readings, independent, found.dof[0].item(), found.display[0].item())


def drift_of(found, layout, question):
    """The `Drift` of one run."""
    one = {name: values[0].item() for name, values in vars(found).items()}
    factor = coverage_factor(question.level, one["dof"])
    slope = Estimate.from_error(one["slope"], one["slope_error"], factor, unit="°C/min", level=question.level)
    known = slope if isfinite(one["slope_error"]) else Estimate.undetermined("°C/min", question.level)
    seen_min = float(np.ptp(layout.before.times_s) / 60)
    return Drift(known, seen_min, one["drift_low"], one["drift_high"], one["minutes"], bool(one["measured"]), bool(one["bent"]), one["swing"])


def _mean(seconds, treated, control, named):
    name, window = named
    inside = slice(*within(seconds, *(60 * edge for edge in window)))
    difference = treated[inside] - control[inside]
    read = difference[np.isfinite(difference)]
    if not len(read):
        raise Fault(NO_READING.format(name))
    return float(read.mean())
