"""Is it steady enough to start? A drift with its range, judged against a tolerance that was chosen beforehand."""

from dataclasses import dataclass, replace
from math import ceil, inf, isfinite

import numpy as np

from kit.analysis.basis import both_vessels
from kit.analysis.steady.words import steadiness_explained
from kit.estimate import Estimate, Range, amount, rounded
from kit.faults import Caution, Fault
from kit.records import Run
from kit.statistics import coverage_factor, display_step, FEWEST_MIN, fit_rise, LEVEL, slopes, wait_for_steady, within
from kit.units import about, difference_in, stated
from kit.words import counted, listed, plain, table_html

UNIT = "°C/min"
FEWEST_READINGS = 6
NO_WAIT = Range(0.0, 0.0, "min")
SERIES = {"difference": ("treated", "control"), "treated": ("treated",), "control": ("control",)}


@dataclass(frozen=True, eq=False)
class Steadiness:
    """Whether the `of` series of `run` was steady in the `over_min` minutes that end at minute `until_min`.

    `slope`: its drift, °C/min; `at_most`: the drift that it stays under at 95 %. `verdict`: 'steady', 'drifting' or 'cannot tell', with its
    `reason`. `wait_min`: how many more minutes of record a verdict of 'steady' may need, a `Range` from the soonest to what does in nine of
    ten cases; None where nobody can say.
    `settling_min`: the time constant with which the control vessel settles, None where the record does not show one.
    """

    run: Run
    of: str
    over_min: float
    until_min: float
    tolerance_c_per_min: float
    slope: Estimate
    at_most: float
    correlation_s: float
    verdict: str
    reason: str
    wait_min: Range | None
    settling_min: float | None = None
    cautions: tuple = ()

    def explain(self):
        """A short plain account of how the verdict was reached, with this run's own numbers."""
        return steadiness_explained(self)

    def __str__(self):
        return f"{self.verdict.capitalize()}: {self.reason}"

    def _repr_html_(self):
        rows = [("drift", self.slope.text), ("tolerance", f"{stated(self.tolerance_c_per_min)}/min"), ("looked at", self.stretch)]
        return table_html([*rows, *(("mind", each) for each in self.cautions)], str(self))

    @property
    def seen(self):
        """The judged readings: minutes (n,) and °C (n,), NaN where one is missing."""
        channels = [self.run.readings[name].to_numpy(float) for name in SERIES[self.of]]
        inside = slice(*within(self.run.readings.index.to_numpy(float), 60 * (self.until_min - self.over_min), 60 * self.until_min))
        return self.run.minutes[inside], (channels[0] - sum(channels[1:]))[inside]

    @property
    def line(self):
        """The ends of the line through them: minutes (2,) and °C (2,)."""
        minutes, values = self.seen
        known, ends = np.isfinite(values), minutes[[0, -1]]
        return ends, values[known].mean() + self.slope.value * (ends - minutes[known].mean())

    @property
    def decides(self):
        """The drift with the range that the verdict rests on, an `Estimate`: steady means that all of it lies within the tolerance, drifting that
        all of it lies beyond, cannot tell that it reaches across. For 'steady' each end is sure at 95 %, else both together."""
        if self.verdict != "steady":
            return self.slope
        reach = self.at_most - abs(self.slope.value)
        return replace(self.slope, low=self.slope.value - reach, high=self.slope.value + reach)

    @property
    def drift(self):
        """That range in words."""
        return f"at most {about(self.at_most)}/min" if self.verdict == "steady" else self.slope.range

    @property
    def stretch(self):
        """Which minutes were looked at, in words."""
        return f"minutes {rounded(self.until_min - self.over_min, 1)} to {rounded(self.until_min, 1)}"

    def to_dict(self):
        """What JSON can keep: all but the readings, which the run's SHA-256 stands for."""
        kept = {name: plain(value) for name, value in vars(self).items() if name != "run"}
        return {"run": self.run.name, "sha256": self.run.source.sha256, **kept, "sentence": str(self)}


@dataclass(frozen=True, eq=False)
class ToJudge:
    """What is to be judged: the `of` series of `run`, over the `over_min` minutes that end at minute `until_min`, by that tolerance."""

    run: Run
    of: str
    over_min: float
    until_min: float
    tolerance_c_per_min: float

    def answered(self, verdict, reason, **found):
        """The `Steadiness` that answers it; without a slope where none was `found`."""
        unknown = {"slope": Estimate.undetermined(UNIT), "at_most": inf, "correlation_s": inf, "wait_min": None}
        return Steadiness(**vars(self), verdict=verdict, reason=reason, **(unknown | found))


def check_steady(run, *, over_min, tolerance_c_per_min, until_min=None, of="difference"):
    """The `Steadiness` of the `over_min` minutes of `run` that end at minute `until_min` (None: at its end).

    `of`: 'difference' (treated - control), 'treated' or 'control'. 10 minutes can settle a tolerance of 0.01 °C a minute, 5 minutes one of
    0.02; a coarse display needs longer. Steady: the drift is surely (95 %) less than the tolerance. Drifting: surely (97.5 %) more.
    A Fault for settings that can't be. Method: `kit.statistics.steady`.
    """
    _refuse(over_min, tolerance_c_per_min, of)
    seconds, vessels = both_vessels(run)
    until_s = seconds[-1] if until_min is None else 60 * until_min
    asked = ToJudge(run, of, over_min, until_s / 60, tolerance_c_per_min)
    so_far = slice(*within(seconds, seconds[0], until_s))
    short = _too_short(seconds[so_far], asked)
    return short or _judged(seconds[so_far], vessels[:, so_far], asked)


def _refuse(over_min, tolerance, of):
    for name, value in (("over_min", over_min), ("tolerance_c_per_min", tolerance)):
        if not 0 < value < inf:
            raise Fault(f"{name} can't be {value!r}. Give a positive number.")
    if of not in SERIES:
        raise Fault(f"There is no {of!r} to check. Choose {listed(map(repr, SERIES), 'or')}.")


def _too_short(seconds, asked):
    """'cannot tell', when the record holds less than was asked for; None when it holds enough."""
    over_min, until_min = asked.over_min, asked.until_min
    held = (until_min * 60 - seconds[0]) / 60 if len(seconds) else 0
    inside = np.sum(seconds >= 60 * (until_min - over_min) - 1e-6)
    if held >= over_min - 1e-6 and inside >= FEWEST_READINGS:
        return None
    if held < over_min - 1e-6:
        reason = f"the record holds {rounded(held, 1)} min and you asked for {over_min:g}. Watch for longer, or ask for less."
        wait = Range(over_min - held, over_min - held, "min")
    else:
        reason, wait = f"the last {over_min:g} min hold {counted(int(inside), 'reading')}, and {FEWEST_READINGS} are needed.", None
    return asked.answered("cannot tell", reason, wait_min=wait)


def _judged(seconds, vessels, asked):
    over_min, tolerance, names = asked.over_min, asked.tolerance_c_per_min, SERIES[asked.of]
    inside = seconds >= 60 * (asked.until_min - over_min) - 1e-6
    channels = vessels[[("treated", "control").index(name) for name in names]]
    stuck = [name for name, channel in zip(names, channels) if np.ptp(channel) == 0]
    if stuck:
        reason = f"the {listed(stuck)} thermometer shows one value all the time. A coarse display does that, and a stuck probe, too."
        return asked.answered("cannot tell", reason)
    found = slopes(seconds[inside], channels[:, None, inside], display_step(channels))
    factor = coverage_factor(LEVEL, found.dof)
    slope = Estimate.from_error(found.slope[0].item(), found.error[0].item(), factor, unit=UNIT, level=LEVEL)
    at_most, settling = found.at_most[0].item(), settling_time(seconds, vessels[1])
    steady, drifting = found.steady(tolerance, over_min)[0], found.drifting(tolerance)[0]
    verdict = "steady" if steady else "drifting" if drifting else "cannot tell"
    wait = NO_WAIT if steady else wait_range(wait_for_steady(found, over_min, tolerance, settling))
    return asked.answered(
        verdict, _reason(verdict, slope, at_most, asked), slope=slope, at_most=at_most, correlation_s=found.correlation_s[0].item(),
        wait_min=wait, settling_min=settling, cautions=_cautions(found, over_min),
    )  # fmt: skip


def wait_range(waits):
    """The `Range` of minutes of (soonest, surely), in steps of half a minute upwards; None for None."""
    return None if waits is None else Range(*(ceil(2 * each) / 2 for each in waits), "min")


def settling_time(seconds, control):
    """The time constant, in minutes, with which the control vessel settles under its lamp; None where the record does not show one."""
    if len(seconds) < FEWEST_READINGS:
        return None
    fit = fit_rise(seconds - seconds[0], control, delay_s=0.0)
    shown = fit.converged and abs(fit.rise) > 10 * fit.scatter and (seconds[-1] - seconds[0]) > 1.5 * fit.time_constant_s
    return fit.time_constant_s / 60 if shown and isfinite(fit.time_constant_s) else None


def _reason(verdict, slope, at_most, asked):
    over_min, tolerance = asked.over_min, f"{difference_in(asked.tolerance_c_per_min):g}"
    said = f"over {over_min:g} min the {asked.of} drifted by"
    if verdict == "steady":
        return f"{said} no more than {about(at_most)}/min (95 %), less than the tolerance of {tolerance}."
    if verdict == "drifting":
        return f"{said} {slope.text}, more than the tolerance of {tolerance}."
    if over_min < FEWEST_MIN:
        return f"{said} {slope.text}. {over_min:g} min are too few to call anything steady; watch {FEWEST_MIN} min or more."
    return f"{said} {slope.text}. Part of that range lies beyond the tolerance of {tolerance}."


def _cautions(found, over_min):
    if found.correlation_s[0] > 60 * over_min / 5:
        text = f"Readings {amount(found.correlation_s[0])} s apart still agree by chance. A longer look helps."
        return (Caution("noise-slow", text),)
    return ()
