"""The warming curve: how far the difference would rise, how fast, and whether the record is long enough to say so."""

from dataclasses import dataclass
from functools import cached_property
from math import inf, log, nan

import numpy as np
import pandas as pd

from kit.analysis.curve.words import cautions_of, curve_explained, diagnosis_of, why_undetermined
from kit.analysis.basis import both_vessels, record_of, refuse_question, why_no_number
from kit.estimate import Estimate
from kit.records import Run, Windows
from kit.statistics import begins, Question, Warming, warming_of, within
from kit.words import Account, counted, plain, table_html

# Fewer cells after the change than this hold no curve.
FEWEST_AFTER = 6
NUMBERS = ("rise", "time_constant", "delay", "half_time")


def fit_warming(run, windows, *, level=0.95, tolerance_c_per_min=0.0):
    """The `WarmingCurve` of the difference: its baseline, and after a delay a rise that slows down, 63 % of it in one time constant.

    The curve is laid by least squares from the baseline's start to the response's end. The ranges hold at `level` on records with
    autocorrelated noise and coarse displays, for any drift of the difference up to `tolerance_c_per_min` (0: it would have stayed level).
    Method: `kit.statistics.warming`. A Fault for windows outside the record or without readings, and for settings that can't be; a
    record that does not hold the numbers gives a curve that is not `determined`, with the reason and what record would do.
    """
    question = Question(level, tolerance_c_per_min)
    refuse_question(question)
    record = record_of(run, windows)
    why_not = too_few_after(record.layout, windows) or why_no_number(record)
    if why_not:
        return curve_without_number(run, windows, question, why_not)
    readings = record.layout, record.seconds, record.vessels
    return curve_of(run, windows, question, warming_of(*readings, windows.seconds, level=level, tolerance_c_per_min=tolerance_c_per_min))


@dataclass(frozen=True, eq=False)
class WarmingCurve:
    """The saturating rise of (treated - control) after the change.

    `rise` (°C): from the baseline to where the curve levels off. `delay` (min): from the change until it begins. `time_constant` (min):
    63 % of the rise takes so long after that, and again 63 % of what is left. `half_time` (min): half of it. `determined`: whether the
    record holds these; where it doesn't, they say 'at least' or nothing, and `reason` says why and what record would do. `at(minutes)`
    is the warming at a minute of the record. `found`: what the statistics found, for charts and the account.
    """

    run: Run
    windows: Windows
    question: Question
    rise: Estimate
    time_constant: Estimate
    delay: Estimate
    half_time: Estimate
    determined: bool
    reason: str
    found: Warming | None

    @cached_property
    def residuals(self):
        """Readings minus curve, °C, a Series over `elapsed_s` from the baseline's start to the response's end."""
        seconds, difference = fitted_part(self.run, self.windows)
        left = difference - self.found.fit.at(seconds) if self.found else np.full_like(difference, nan)
        return pd.Series(left, index=pd.Index(seconds, name="elapsed_s"), name="residual")

    @cached_property
    def diagnosis(self):
        """What the residuals show, in words."""
        return diagnosis_of(self.found, self.residuals) if self.found else "There is no curve, so there are no residuals."

    @cached_property
    def cautions(self):
        """What to keep in mind."""
        return cautions_of(self.found, self.windows) if self.found else ()

    def at(self, minutes):
        """The warming above the baseline at a minute of the record, an `Estimate` in °C. Past the record it trusts the curve's form."""
        if self.found is None:
            return Estimate.undetermined(level=self.question.level)
        low, high = (float(end) for end in self.found.allowed.range_at(60 * minutes))
        if not self.determined and minutes > self.windows.response[1]:
            return bound(low, high, self.question.level, "°C")
        return around(self.found.fit.at(60 * minutes) - self.found.fit.level, low, high, self.found.factor, level=self.question.level)

    def traced(self, points=240):
        """The curve for drawing, a DataFrame over the record's minutes and half as long again as was watched: the `warming` of the curve
        and the `low` and `high` of all curves that the record allows, °C above the baseline."""
        (start, _), (change, _), (_, end) = self.windows.baseline, self.windows.perturbation, self.windows.response
        minutes = np.linspace(start, end + (end - change) / 2, points)
        low, high = self.found.allowed.range_at(60 * minutes)
        warming = self.found.fit.at(60 * minutes) - self.found.fit.level
        return pd.DataFrame({"warming": warming, "low": low, "high": high}, index=pd.Index(minutes, name="minutes"))

    @property
    def condition(self):
        """Under which condition the ranges hold, to be read beside the numbers."""
        drift = self.question.tolerance_c_per_min
        stays = f"would have drifted by no more than {drift:g} °C a minute" if drift else "would have stayed level"
        return f"as long as the difference {stays} without the change, and one rise describes it"

    def explain(self):
        """A short plain account of how the curve and its ranges were found, with this run's own numbers."""
        return Account(curve_explained(self))

    def __str__(self):
        if self.determined:
            return f"The difference rises by {self.rise.text}. Once begun, 63 % of that takes {self.time_constant.text}."
        return f"The rise is {self.rise.range}. {self.reason}"

    def _repr_html_(self):
        named = [("begins after", self.delay.text), ("63 % takes", self.time_constant.text), ("half takes", self.half_time.text)]
        rows = [("rise", self.rise.text), *named, ("holds", self.condition), ("residuals", self.diagnosis)]
        return table_html([*rows, *(("mind", each) for each in self.cautions)], str(self))

    def to_dict(self):
        """What JSON can keep: all but the readings, which the run's SHA-256 stands for."""
        parts = ("windows", "question", *NUMBERS, "determined", "reason", "diagnosis", "cautions")
        kept = {name: plain(getattr(self, name)) for name in parts}
        return {"run": self.run.name, "sha256": self.run.source.sha256, **kept, "condition": self.condition, "sentence": str(self)}


def too_few_after(layout, windows):
    """Why the record can hold no curve: a sentence, or None."""
    after = int((layout.cells.times_s > begins(windows.seconds)[1]).sum())
    if after < FEWEST_AFTER:
        return f"Only {counted(after, 'reading')} come late enough after the change to show a curve. Read more often, or watch for longer."
    return None


def curve_without_number(run, windows, question, reason):
    """The `WarmingCurve` that says only why there is none."""
    unknown = [Estimate.undetermined(unit, question.level) for unit in ("°C", "min", "min", "min")]
    return WarmingCurve(run, windows, question, *unknown, False, reason, None)


def curve_of(run, windows, question, found):
    """The `WarmingCurve` of what was `found`: numbers where the record determines them, bounds where it doesn't."""
    reason, bounded = why_undetermined(found, windows)
    if reason and not bounded:
        return curve_without_number(run, windows, question, reason)
    numbers = estimates(found, windows, question.level, reason is None)
    told = reason or "The record is long and quiet enough to bound the curve on both sides."
    return WarmingCurve(run, windows, question, *numbers, reason is None, told, found)


def estimates(found, windows, level, determined):
    """Rise, time constant, delay and half time as `Estimate`s: around the fit, or bounds alone."""
    fit, allowed, change_min = found.fit, found.allowed, windows.perturbation[0]
    rise, time_constant = [float(end) for end in allowed.range_at(inf)], [end / 60 for end in allowed.time_constant_s]
    delay = around(
        fit.delay_s / 60 - change_min, *(end / 60 - change_min for end in allowed.delay_s), found.factor, level=level, unit="min"
    )
    if determined:
        speed = around(fit.time_constant_s / 60, *time_constant, found.factor, level=level, unit="min")
        return around(fit.rise, *rise, found.factor, level=level), speed, delay, speed.scaled(log(2), "min")
    speed = bound(*time_constant, level, "min")
    return bound(*rise, level, "°C"), speed, delay, speed.scaled(log(2), "min")


def around(value, low, high, factor, *, level, unit="°C"):
    """The value of least squares with the range of all allowed curves, which holds it; `factor` is Student's t."""
    return Estimate(value, (high - low) / (2 * factor), min(low, value), max(high, value), level, unit)


def bound(low, high, level, unit):
    """'At least' the lower end, or 'at most' the upper one for a fall; nothing where the range holds zero."""
    if low > 0 or high < 0:
        return Estimate(nan, inf, low if low > 0 else -inf, high if high < 0 else inf, level, unit)
    return Estimate.undetermined(unit, level)


def fitted_part(run, windows):
    """Seconds and difference (°C) of the readings that the curve is laid through: baseline's start to response's end."""
    seconds, vessels = both_vessels(run)
    kept = slice(*within(seconds, windows.seconds[0], windows.seconds[5]))
    return seconds[kept], vessels[0, kept] - vessels[1, kept]
