"""The range as if every reading were an independent look, shown beside the honest one so that a class sees the gap."""

from dataclasses import dataclass

from kit.analysis.basis import record_of
from kit.analysis.effect.paired import Effect, paired_effect
from kit.estimate import Estimate, amount
from kit.faults import Fault
from kit.records import Run, Windows
from kit.statistics import welch_interval
from kit.words import account, plain, table_html

LABEL = "as if readings were independent (they are not)"


@dataclass(frozen=True, eq=False)
class NaiveEffect:
    """The same effect with the range of independent readings, which is too narrow, and the `honest` Effect to hold against it."""

    run: Run
    windows: Windows
    warming: Estimate
    honest: Effect
    label: str = LABEL

    @property
    def times_narrower(self):
        """How many times narrower the independent range is than the honest one."""
        return self.honest.warming.half_width / self.warming.half_width

    def explain(self):
        """What the two ranges differ in, with this run's own numbers."""
        noise = self.honest.noise
        if noise is None:
            return account(self, f"There is no honest range to hold it against: {self.honest.reason}")
        return account(
            self,
            f"It takes the {noise.readings} readings of the baseline for {noise.readings} independent readings; they are worth about "
            f"{max(noise.independent, 1):.0f}. It knows nothing of drift or of the display. The honest range is {self.honest.warming.range}.",
        )

    def __str__(self):
        return f"{LABEL.capitalize()}: {self.warming.text}. Not a range to report."

    def _repr_html_(self):
        rows = [(LABEL, self.warming.text), ("honest", self.honest.warming.text), ("times narrower", amount(self.times_narrower))]
        return table_html(rows, str(self))

    def to_dict(self):
        """What JSON can keep."""
        return {"run": self.run.name, "label": LABEL, "warming": plain(self.warming), "honest": self.honest.to_dict()}


def naive_effect(run, windows, *, level=0.95):
    """A `NaiveEffect`: the effect with the range that independent readings would give. It is too narrow, and says so wherever it shows.

    On records whose readings agree over 5 to 60 s such 95 % ranges held the truth in 13 to 47 of 100 simulated runs (`python -m kit check
    --coverage`). Faults as `paired_effect`, and one for a window with a single reading.
    """
    honest = paired_effect(run, windows, level=level)
    record = record_of(run, windows)
    difference = record.vessels[0] - record.vessels[1]
    before, after = difference[record.layout.baseline], difference[record.layout.response]
    if min(len(before), len(after)) < 2:
        raise Fault("This range needs two readings in the baseline and two in the response. Make the windows wider.")
    return NaiveEffect(run, windows, Estimate.from_error(*welch_interval(before, after, level), level=level), honest)
