"""The warming curve: how far it came, how soon, whether it was still on its way at the end; and one rise drawn through it, to look at."""

from dataclasses import dataclass
from functools import cached_property
from math import inf, isfinite, nan

import numpy as np
import pandas as pd

from kit.analysis.basis import both_vessels, record_of
from kit.analysis.curve.words import LONG_ENOUGH_MIN, cautions_of, curve_explained, diagnosis_of, how_soon, why_undetermined
from kit.analysis.effect import Effect, paired_effect
from kit.estimate import Estimate
from kit.records import Run, Windows
from kit.statistics import begins, coverage_factor, Warming, warming_of, within
from kit.words import Account, counted, plain, table_html

# Fewer cells after the change than this hold no curve.
FEWEST_AFTER = 6


def fit_warming(run, windows, *, level=0.95, tolerance_c_per_min=None):
    """The `WarmingCurve` of the difference: how far it rose, when 63 % of that was reached, and whether it was still rising at the end.

    None of these rests on a formula for the curve: a vessel warms at more than one speed, and the gas needs its time to come in. The ranges hold at
    `level` as those of `paired_effect` do, for the same drift. One rise of one speed is drawn through the readings as well, to look at and to
    see where it does not fit. Method: `kit.statistics.curve.course`. A Fault for windows outside the record or without readings, and for settings
    that can't be; a record that does not show the time gives a curve that is not `determined`, with the reason.
    """
    effect = paired_effect(run, windows, level=level, tolerance_c_per_min=tolerance_c_per_min)
    if effect.found is None:
        return curve_without_time(effect, effect.reason)
    record = record_of(run, windows)
    why_not = too_few_after(record.layout, windows)
    if why_not:
        return curve_without_time(effect, why_not)
    return curve_of(effect, warming_of(record.layout, record.seconds, record.vessels, windows.seconds, effect.found))


@dataclass(frozen=True, eq=False)
class WarmingCurve:
    """How (treated - control) came to its new level after the change.

    `rise`: from the baseline to the response, °C, the number and range of the paired `effect`. `time_to_63`: from the change until 63 % of that
    was reached, minutes. `late`: by how much the response lies above a like window two minutes before it, °C; None where that is not after the
    change. `determined`: whether the record shows the time, with the `reason`. `at(minutes)` is the warming at a minute of the record. `found`:
    what the statistics found, for charts and the account; None where there is no curve.
    """

    effect: Effect
    rise: Estimate
    time_to_63: Estimate
    late: Estimate | None
    determined: bool
    reason: str
    found: Warming | None

    @property
    def run(self):
        """The run that it was laid through."""
        return self.effect.run

    @property
    def windows(self):
        """The windows that it was laid in."""
        return self.effect.windows

    @property
    def comparable(self):
        """The number that other results can be compared and pooled with."""
        return self.rise

    @property
    def still_rising(self):
        """Was it surely still on its way in the last two minutes? False where that can't be said."""
        return self.late is not None and (self.late.low > 0 < self.rise.low or self.late.high < 0 > self.rise.high)

    @property
    def falling_again(self):
        """Was it surely on its way back in the last two minutes? False where that can't be said."""
        return self.late is not None and (self.late.high < 0 < self.rise.low or self.late.low > 0 > self.rise.high)

    @property
    def verdict(self):
        """'determined' or 'not determined': the time to 63 %."""
        return "determined" if self.determined else "not determined"

    @cached_property
    def residuals(self):
        """Readings minus the drawn rise, °C, a Series over `elapsed_s` from the baseline's start to the response's end."""
        seconds, difference = fitted_part(self.run, self.windows)
        left = difference - self.found.drawn.at(seconds) if self.found else np.full_like(difference, nan)
        return pd.Series(left, index=pd.Index(seconds, name="elapsed_s"), name="residual")

    @cached_property
    def diagnosis(self):
        """What the residuals of the drawn rise show, in words."""
        return diagnosis_of(self.found, self.residuals) if self.found else "There is no curve, so there are no residuals."

    @cached_property
    def cautions(self):
        """What to keep in mind."""
        return (*self.effect.cautions, *cautions_of(self))

    def at(self, minutes):
        """The warming above the baseline at a minute of the record, an `Estimate` in °C: the level there, not one reading. Past the response
        only the drawn rise goes on, so that there is a value without a range."""
        level = self.effect.question.level
        if self.found is None:
            return Estimate.undetermined(level=level)
        if minutes > self.windows.response[1]:
            drawn = self.found.drawn
            return Estimate(float(drawn.at(60 * minutes) - drawn.level), inf, -inf, inf, level)
        value, low, high = (float(each[0]) for each in self.found.course.warmed(np.array([60.0 * minutes])))
        return _around(value, low, high, self.found.course, "°C")

    def traced(self, points=240):
        """The curve for drawing, a DataFrame over minutes: the `warming` above the baseline with `low` and `high` as far as the record goes, and
        the `drawn` rise half as long again; °C."""
        (start, _), (change, _), (_, end) = self.windows.baseline, self.windows.perturbation, self.windows.response
        minutes = np.linspace(start, end + (end - change) / 2, points)
        seen, drawn = minutes <= end, self.found.drawn
        ranged = np.full((3, points), nan)
        ranged[:, seen] = self.found.course.warmed(60 * minutes[seen])
        columns = {**dict(zip(("warming", "low", "high"), ranged)), "drawn": drawn.at(60 * minutes) - drawn.level}
        return pd.DataFrame(columns, index=pd.Index(minutes, name="minutes"))

    @property
    def pace(self):
        """How soon it warmed, and whether it goes on, in words; how far says its effect."""
        return how_soon(self)

    @property
    def condition(self):
        """Under which condition the ranges hold, to be read beside the numbers."""
        return self.effect.condition

    def explain(self):
        """A short plain account of how the numbers were found, with this run's own."""
        return Account(curve_explained(self))

    def __str__(self):
        return f"{self.effect} {self.pace}" if isfinite(self.rise.value) else self.pace

    def _repr_html_(self):
        late = [(f"change in the last {LONG_ENOUGH_MIN} min", self.late.text)] if self.late else []
        rows = [("rise", self.rise.text), ("63 % of it after", self.time_to_63.text), *late, ("why", self.reason), ("holds", self.condition)]
        return table_html([*rows, ("drawn rise", self.diagnosis), *(("mind", each) for each in self.cautions)], str(self))

    def to_dict(self):
        """What JSON can keep: all but the readings, which the run's SHA-256 stands for."""
        parts = ("windows", "rise", "time_to_63", "late", "still_rising", "determined", "reason", "diagnosis", "cautions")
        kept = {name: plain(getattr(self, name)) for name in parts}
        return {"run": self.run.name, "sha256": self.run.source.sha256, **kept, "condition": self.condition, "sentence": str(self)}


def too_few_after(layout, windows):
    """Why the record can hold no curve: a sentence, or None."""
    after = int((layout.cells.times_s > begins(windows.seconds)[1]).sum())
    if after < FEWEST_AFTER:
        return f"Only {counted(after, 'reading')} come late enough after the change to show a curve. Read more often, or watch for longer."
    return None


def curve_without_time(effect, reason):
    """The `WarmingCurve` that says only how far it came, if that, and why there is no more."""
    return WarmingCurve(effect, effect.warming, Estimate.undetermined("min", effect.question.level), None, False, reason, None)


def curve_of(effect, found):
    """The `WarmingCurve` of what was `found`."""
    course = found.course
    value, low, high = (each / 60 for each in course.time_to_63())
    reason = why_undetermined(effect, value, low, high)
    late = course.late()
    last = None if late is None else _around(*late, course, "°C")
    if reason is None:
        told = "Its range is narrower than the time itself and ends before the response, and the rise is told from none."
        return WarmingCurve(effect, effect.warming, _around(value, low, high, course, "min"), last, True, told, found)
    known = isfinite(low) and low > 0 and effect.verdict != "cannot tell"
    at_least = Estimate(nan, inf, low if known else -inf, inf, course.level, "min")
    return WarmingCurve(effect, effect.warming, at_least, last, False, reason, found)


def _around(value, low, high, course, unit):
    error = (high - low) / (2 * coverage_factor(course.level, course.dof))
    return Estimate(value, error, min(low, value), max(high, value), course.level, unit)


def fitted_part(run, windows):
    """Seconds and difference (°C) of the readings that the rise is drawn through: baseline's start to response's end."""
    seconds, vessels = both_vessels(run)
    kept = slice(*within(seconds, windows.seconds[0], windows.seconds[5]))
    return seconds[kept], vessels[0, kept] - vessels[1, kept]
