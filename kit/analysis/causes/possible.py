"""What could have warmed the treated vessel more: rival causes, each with a computed range, beside the measured effect.

Sizes can't single out a cause. They say which causes could reach the measured number, and which run would tell them apart; several runs
together are weighed by `weigh_causes`, of which this is the first step.
"""

from dataclasses import dataclass
from math import isfinite

from kit.analysis.basis import safety
from kit.analysis.causes.bounds import LETTERS
from kit.analysis.causes.plausible import Plausible, plausible_with
from kit.analysis.causes.predictions import FEWER, computed_table, size_limits
from kit.analysis.causes.published import PUBLISHED
from kit.analysis.causes.rivals import RIVALS, RUNS, Rival
from kit.analysis.causes.separating import runs_that_separate
from kit.estimate import Range
from kit.faults import Fault
from kit.words import account, listed, plain, table_html

KIND_OF = {"CO2": "gas", "argon": "argon", "air": "air"}
REASONS = {
    "m": "Grows with the mouth and with how warm the gas is; ends when the gas has gone.",
    "d": "Grows with the light on the thermometer and the share of gas.",
    "c": "Where it is mixed, CO2 carries 0.89 to 1.00 of the heat that air does, argon 0.71.",
    "a": "From nothing, where clear plastic stops both bands, to what the mouth lets in. A 2700 K lamp has 2 % for it, a dark heater 8 %.",
    "b": "It may push either way: it pulls the gas to its walls, and the sign is that of wall less gas.",
    "e": "Minutes only: the room gives the heat back before the reading.",
    "f": "Nobody can compute it. An air run through the same tube measures it.",
}
MEASURED_BY_AIR = "Measured by your air run: same tube, same handling, no gas."


@dataclass(frozen=True)
class Cause:
    """One rival with its size (°C, at the time of reading), the reasons for the range, and how it stands to the measured effect.

    `standing`: "could alone", "too small alone", "other way", "too large" (its least is above the measured) or "not compared".
    """

    rival: Rival
    size: Range
    reason: str
    standing: str

    def __str__(self):
        return f"{self.rival}: {self.size}. {self.reason}"


@dataclass(frozen=True)
class CauseBudget:
    """The rival causes beside the measured effect (an Estimate, or None). `verdict` is always "cannot tell": sizes never settle a cause."""

    causes: tuple
    measured: object
    gas: str
    vessel: Plausible
    together: Range
    next_runs: tuple
    published: tuple
    cautions: tuple
    verdict: str = "cannot tell"

    @property
    def could_alone(self):
        """Letters of the causes whose range meets the measured interval."""
        return tuple(each.rival.letter for each in self.causes if each.standing == "could alone")

    @property
    def reason(self):
        """Why these sizes don't settle it, and what would help."""
        if self.measured is None:
            return f"No effect with a range was given. Together the causes could add {self.together}."
        able = listed([str(each.rival) for each in self.causes if each.standing == "could alone"] or ["none"])
        reach = f"Of {len(self.causes)} causes, {able} could reach {self.measured.text} alone; several could together."
        return f"{reach} Runs that tell them apart: {'; '.join(RUNS[run] for run in self.next_runs[:3])}."

    def __str__(self):
        return f"Why it got warmer: {self.verdict} from sizes. {self.reason}"

    def explain(self):
        """Each cause with its size and why it is that large."""
        return account(self, *self.causes)

    def _repr_html_(self):
        rows = [(str(each.rival), f"{each.size}: {each.standing}") for each in self.causes]
        return table_html(rows, f"What {self.gas} could have done, beside {self.measured.text if self.measured else 'no measured effect'}")

    def to_dict(self):
        return plain(self)


def possible_causes(effect=None, *, gas="CO2", air_run=None, vessel=None):
    """`CauseBudget`: seven rival causes with the size each could have on plausible benches, beside a measured effect.

    `effect` and `air_run`: an Effect or an Estimate in °C. An air run sets the range of the disturbance. `gas`: CO2, argon or air.
    `vessel`: what a class knows of its own bench, a dict of numbers or pairs by the names of `Plausible`:
    `possible_causes(effect, vessel={"mouth_cm": 7, "card_w": (0.1, 0.3)})`. A Fault names what can't be.
    """
    if gas not in KIND_OF:
        raise Fault(f"The gas {gas!r} is not known. Known: {listed(KIND_OF)}.")
    measured, sham = estimate_of(effect), estimate_of(air_run)
    ranges, kind = plausible_with(vessel), KIND_OF[gas]
    limits = size_limits(kind, computed_table(ranges, FEWER, kinds=(kind,)) if vessel else None)
    if sham:
        limits["f"] = sham.low, sham.high
    causes = tuple(_cause(rival, Range(*limits[rival.letter], "°C"), gas, measured, sham) for rival in RIVALS)
    able = [each.rival.letter for each in causes if each.standing == "could alone"]
    return CauseBudget(
        causes=causes,
        measured=measured,
        gas=gas,
        vessel=ranges,
        together=Range(sum(each.size.low for each in causes), sum(each.size.high for each in causes), "°C"),
        next_runs=runs_that_separate(able if len(able) > 1 else LETTERS, one=able[0] if len(able) == 1 else None).kinds,
        published=PUBLISHED,
        cautions=safety("lamp", "alone", "glass", "way out", "cylinder"),
    )


def estimate_of(effect):
    """The Estimate in `effect`, if it has a range at all."""
    found = getattr(effect, "warming", effect)
    return found if found is not None and isfinite(found.low) and isfinite(found.high) else None


def _cause(rival, size, gas, measured, sham):
    reason = MEASURED_BY_AIR if rival.letter == "f" and sham else REASONS[rival.letter]
    if rival.letter in "ab" and gas != "CO2":
        reason = f"There is none: {gas} takes up no infrared."
    return Cause(rival, size, reason, _standing(size, measured))


def _standing(size, measured):
    if measured is None:
        return "not compared"
    if size.meets(measured):
        return "could alone"
    if measured.value * (size.low + size.high) < 0:
        return "other way"
    return "too small alone" if max(abs(size.low), abs(size.high)) < abs(measured.value) else "too large"
