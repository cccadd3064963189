"""The plan of a run, or of several: gas, timetable, how many repeats a wanted range needs, and what keeps people safe."""

from dataclasses import dataclass
from math import inf

import numpy as np

from kit.analysis.basis import safety
from kit.analysis.planning.dosing import GasDose, gas_dose
from kit.analysis.planning.words import plan_explained, plan_sentence, schedule_of, SETTLE_MIN, why_plan
from kit.faults import Fault
from kit.physics import bounded
from kit.settings import class_settings, or_class
from kit.statistics import (
    display_step,
    Terms,
    rehearse,
    Rehearsed,
    SHORTEST_CELL_S,
    Timing,
    Wander,
)
from kit.words import Account, plain, table_html

# Longer quiet times are not used by the effect; shorter ones are shown for what they cost.
QUIET_MIN, SHORTER_MIN, BASELINES_MIN = 10.0, (1.0, 5.0), (1.0, 3.0)
MOST_RUNS = 12
# Runs of the same set-up differ by about this beyond their noise (standard deviation, °C): common practice, no source.
USUAL_SPREAD_C = 0.05


def plan_run(*, half_width_c=0.2, pilot=None, wander=None, spread_c=USUAL_SPREAD_C, tolerance_c_per_min=None, **dose):
    """The `Plan` for a range of at most ± `half_width_c` (°C) around the extra warming.

    How the difference wanders is taken from a `pilot` (an Effect of an earlier run) or stated as a `wander`
    (`kit.statistics.rehearsal.Wander`; neither: quiet digital thermometers). Runs with that wander are rehearsed, so that the plan
    predicts what `paired_effect` and `class_effect` will say: the half-width that 4 of 5 such plans stay under, for a difference that drifts by
    the tolerance (with a pilot: as the pilot did), half of the plans each way. `spread_c`: by how much runs differ beyond their noise (standard deviation, °C;
    `class_effect(...).spread.value` of a class measures it). `dose`: what `gas_dose` takes, `tablets=4, vessel_l=1.5` say. A Fault for
    numbers that can't be; a wish that cannot be met is said to be so, with what would come nearest.
    """
    tolerance = or_class(tolerance_c_per_min, "tolerance_c_per_min")
    refuse_wish(half_width_c, spread_c, tolerance)
    noise = wander_of(pilot) if pilot is not None else stated(wander or Wander())
    drift = drift_of(pilot) if pilot is not None else tolerance
    options = tuple(options_of(noise, spread_c, Terms(tolerance_c_per_min=tolerance), drift))
    usual = [each for each in options if each.timing.quiet == _quiet_min()]
    fits = [each for each in usual if each.half_width_c <= half_width_c]
    fewest = min(fits, key=lambda each: (each.runs, each.swap, each.timing.baseline), default=None)
    chosen = fewest or min(usual, key=lambda each: each.half_width_c)
    return Plan(half_width_c, noise, spread_c, drift, chosen, options, gas_dose(**dose), bool(fits))


@dataclass(frozen=True)
class Option:
    """`runs` with that `timing`, half of them with swapped vessels if `swap`: the half-width (°C) that 4 of 5 such plans stay under, and what one
    run brings. For one run it is that of the range for the set-up: what runs differ by counts, too."""

    timing: Timing
    runs: int
    swap: bool
    half_width_c: float
    alone: Rehearsed
    spread_c: float

    def chance(self, effect_c):
        """How likely the range will lie off zero for a true extra warming of `effect_c` (°C, number or array)."""
        return self.alone.chance(effect_c, self.runs, self.swap, self.spread_c)


@dataclass(frozen=True, eq=False)
class Plan:
    """`half_width_c`: the range that is wanted (± °C). `wander`, `spread_c`: what was taken for chance within and between runs; `drift_c_per_min`:
    the drift that the promise is made for. `chosen`:
    the `Option` that meets the wish with the fewest runs, or comes nearest; `options`: all that were looked at. `dose`: the gas.
    `reachable`: whether the wish can be met with at most 12 runs. `schedule`: (minute, what to do) for one run. `cautions`: the safety
    list."""

    half_width_c: float
    wander: Wander
    spread_c: float
    drift_c_per_min: float
    chosen: Option
    options: tuple
    dose: GasDose
    reachable: bool

    @property
    def runs(self):
        """How many runs to make."""
        return self.chosen.runs

    @property
    def schedule(self):
        """(minute, what to do) for one run, from the lamp's start."""
        return schedule_of(self.chosen)

    @property
    def minutes(self):
        """How long one run lasts, from the lamp's start to the logger's stop."""
        return self.schedule[-1][0]

    @property
    def verdict(self):
        """'within reach' or 'out of reach'."""
        return "within reach" if self.reachable else "out of reach"

    @property
    def reason(self):
        """Why, in a sentence or two."""
        return why_plan(self)

    @property
    def cautions(self):
        """The safety list; local rules and a qualified adult decide."""
        return safety("lamp", "alone", "glass", "ventilate", "way out", "eyes", "tablets")

    def chance_of_telling(self, effect_c):
        """How likely these runs will tell a true extra warming of `effect_c` (°C, number or array) from none."""
        return self.chosen.chance(effect_c)

    def explain(self):
        """A short plain account of the plan, with its own numbers."""
        return Account(plan_explained(self))

    def __str__(self):
        return plan_sentence(self)

    def _repr_html_(self):
        steps = [(f"minute {minute:g}", what) for minute, what in self.schedule]
        return table_html([("gas", self.dose), *steps, ("why", self.reason), *(("safety", each) for each in self.cautions)], str(self))

    def to_dict(self):
        """What JSON can keep."""
        parts = ("half_width_c", "wander", "spread_c", "drift_c_per_min", "chosen", "options", "reachable", "runs", "minutes", "schedule", "reason")
        return {**{name: plain(getattr(self, name)) for name in (*parts, "cautions")}, "dose": self.dose.to_dict(), "sentence": str(self)}


def refuse_wish(half_width_c, spread_c, tolerance_c_per_min):
    """Raise a Fault for a wish that makes no sense."""
    if not 0 < half_width_c < inf:
        raise Fault(f"The wanted half-width is how far the range may reach to each side, in °C: 0.2, say. It was given {half_width_c!r}.")
    for name, value in (("spread_c", spread_c), ("tolerance_c_per_min", tolerance_c_per_min)):
        if not 0 <= value < inf:
            raise Fault(f"{name} can't be {value!r}. Give zero or a positive number.")


def stated(wander):
    """`wander`, if there can be such a one; else a Fault that names the first number that can't be."""
    limits = {"sd_c": (1e-6, 5), "correlation_s": (0, 3600), "white_share": (0, 1), "step_s": (0.05, 120), "display_c": (0, 5)}
    for name, (low, high) in limits.items():
        bounded(getattr(wander, name), f"{name} of the wander", low, high)
    return wander


def wander_of(pilot):
    """The `Wander` of an Effect's difference. White noise is larger in a reading than in the cells that the noise was learnt from."""
    noise = getattr(pilot, "noise", None)
    if noise is None:
        raise Fault("The pilot holds no noise to plan with. Give an effect that has a number: paired_effect(run, windows).")
    step_s, steps = pilot.run.step_s, pilot.run.readings[["treated", "control"]].to_numpy(float).T
    each = max(round(SHORTEST_CELL_S / step_s), 1)
    white, shared = noise.sd_c**2 * noise.white_share * each, noise.sd_c**2 * (1 - noise.white_share)
    return Wander(
        (white + shared) ** 0.5, noise.correlation_s, white / (white + shared), step_s, round(float(np.nanmax(display_step(steps))), 6)
    )


def drift_of(pilot):
    """The drift of an Effect's difference before its change, °C a minute, without its sign; the tolerance where none was seen."""
    slope = pilot.drift.slope.value
    return abs(slope) if slope == slope else pilot.question.tolerance_c_per_min


def options_of(noise, spread_c, question, drift):
    """Every `Option`: quiet times and baselines, one run or several, with swapped vessels or without."""
    quiet, watch = _quiet_min(), class_settings()["read_after_min"]
    timings = [Timing(quiet, baseline, watch) for baseline in BASELINES_MIN if baseline < quiet]
    timings += [Timing(shorter, min(BASELINES_MIN), watch) for shorter in SHORTER_MIN if shorter < quiet]
    for timing in timings:
        alone = rehearse(noise, timing, question, drift)
        yield Option(timing, 1, False, alone.promised(1, False, spread_c), alone, spread_c)
        for runs in range(3, MOST_RUNS + 1):
            for swap in (False, True)[: 2 - runs % 2]:
                yield Option(timing, runs, swap, alone.promised(runs, swap, spread_c), alone, spread_c)


def _quiet_min():
    """The usual quiet time: all before the minute in which the tube is put in, as far as it is used."""
    return min(QUIET_MIN, class_settings()["gas_at_min"] - SETTLE_MIN)
