"""How often windows are suggested rightly, and how often a thermometer is called stuck, rightly and falsely, on simulated records."""

from dataclasses import dataclass

import numpy as np
import pandas as pd

from kit.analysis.effect import suggest_windows
from kit.coverage.invented import Scenario, seed_of, simulated
from kit.coverage.study import Row, Study, share
from kit.faults import Fault
from kit.records import Run, Source
from kit.statistics import still_stretches

RUNS = 200
# How far before the change a baseline may end, minutes.
EARLY_MIN, CHANGE_MIN = 3.0, 10.0
FALSE_STUCK = 0.5


@dataclass(frozen=True)
class Findable:
    """A record whose windows are to be found: its `scenario`; what is `more` in the treated vessel, given minutes since the change, °C; its
    `gas` channel, given the same, as a share (None: no channel); `right`: the bar in percent. `none`: no change is there to be found."""

    scenario: Scenario
    more: object = None
    gas: object = None
    right: float = 90.0
    none: bool = False


def found_in(name, *, more=None, gas=None, right=90.0, none=False, **kind):
    """A `Findable` with ten minutes before the change."""
    settings = {"step_s": 2, "memory_s": 10, "earlier_s": 540, "lamp_s": -3600, **kind}
    return Findable(Scenario(name, **settings), more, gas, right, none)


def filling(minutes):
    """The share of gas while it comes in within a minute."""
    return 0.9 * np.clip(minutes, 0, 1)


def later(size, after=5.0, time=1.7):
    """A second rise of the difference, °C, some minutes after the change."""
    return lambda minutes: -size * np.expm1(-np.maximum(minutes - after, 0) / time)


BY_HAND = {"step_s": 60, "display_c": 0.1, "memory_s": 20}
FINDINGS = (
    found_in("gas", gas=filling),
    found_in("gas, no effect", gas=filling, rise_c=0.0),
    found_in("gas probe at its top end", gas=lambda minutes: np.minimum(filling(minutes), 0.01)),
    found_in("breath at the gas probe", gas=lambda minutes: np.maximum(filling(minutes), 0.5 * (np.abs(minutes + 7.5) < 0.2))),
    found_in("gas leaks in before", gas=lambda minutes: np.maximum(filling(minutes), 0.08 * np.clip(minutes / 5 + 1, 0, 1))),
    found_in("slow gas probe", gas=lambda minutes: -0.9 * np.expm1(-np.maximum(minutes - 0.5, 0) / 2)),
    found_in("gas twice", gas=lambda minutes: 0.4 * np.clip(minutes, 0, 1) + 0.6 * np.clip(minutes - 5, 0, 1)),
    *(found_in(f"no gas channel, {size:g} °C", rise_c=size) for size in (0.3, 0.5, 1.0)),
    found_in("drift 0.02", drift_c=0.02),
    found_in("lamp still settling", lamp_s=0),
    found_in("by hand, 1 °C", right=70.0, **BY_HAND),
    found_in("by hand, 0.5 °C", right=30.0, rise_c=0.5, **BY_HAND),
    found_in("second dose, smaller", more=later(0.5), right=80.0),
    found_in("second dose, larger", more=later(2.0), right=50.0),
    *(found_in(f"knock {size:g} °C before", more=lambda minutes, size=size: size * (minutes > -4)) for size in (0.1, 0.5)),
    found_in("slow rise, 600 s", more=later(1.5, 0.0, 10.0), rise_c=0.0),
    found_in("1/f 0.05", slow="1/f", slow_c=0.05, right=85.0),
    found_in("nothing", rise_c=0.0, none=True),
    found_in("nothing, 1/f 0.05", rise_c=0.0, slow="1/f", slow_c=0.05, none=True, right=80.0),
    found_in("nothing, cycle 0.1 of 20 min", rise_c=0.0, slow="cycle", slow_c=0.1, period_min=20, none=True),
)


def finding_row(kind, runs):
    """One row: right is a baseline that ends before the change, and by no more than 3 minutes; where no change is, none at all."""
    made, rng = simulated(kind.scenario, runs), seed_of(kind.scenario.name)
    ends = np.array([_baseline_end(_run(kind, made, place, rng)) for place in range(runs)])
    right = np.isnan(ends) if kind.none else (ends <= CHANGE_MIN + 0.05) & (ends >= CHANGE_MIN - EARLY_MIN)
    late = ends > CHANGE_MIN + 0.05
    figures = (share("right %", right, low=kind.right), share("found %", ~np.isnan(ends)), share("ends too late %", late))
    return Row(kind.scenario.name, figures)


def _run(kind, made, place, rng):
    minutes = made.seconds / 60 - CHANGE_MIN
    more = 0 if kind.more is None else kind.more(minutes)
    columns = {"treated": made.treated[place] + more, "control": made.control[place]}
    if kind.gas is not None:
        columns["gas_ppm"] = (420 + 1e6 * kind.gas(minutes)) * (1 + 0.004 * rng.standard_normal(len(minutes)))
    return Run(pd.DataFrame(columns, index=pd.Index(made.seconds, name="elapsed_s")), "simulated", Source("simulated", ""))


def _baseline_end(run):
    try:
        return suggest_windows(run).baseline[1]
    except Fault:
        return np.nan


HEALTHY = tuple(
    Scenario(f"{display:g} °C, noise {noise:g}, every {step:g} s{more}", step, 10, earlier_s=540, display_c=display, noise_c=noise, **kind)
    for display in (0.1, 0.5) for noise in (0.01, 0.03, 0.1) for step in (1, 10)
    for more, kind in (("", {}), (", rise 4 °C", {"rise_c": 4.0}))
) + (Scenario("0.1 °C, noise 0.01, room + 4 °C", 1, 10, earlier_s=540, display_c=0.1, noise_c=0.01, lamp_s=-60),)  # fmt: skip
STUCK = tuple(
    Scenario(f"{display:g} °C, noise {noise:g}, stuck for {minutes:g} min", 2, 10, earlier_s=540, display_c=display, noise_c=noise, lasts_min=minutes)
    for display, noise in ((0.01, 0.02), (0.01, 0.005), (0.1, 0.1)) for minutes in (2, 5)
)  # fmt: skip


def stuck_row(scenario, runs, stands_still=False):
    """One row of records; in those that are to be found the control stands still from some moment on, for the minutes that are named."""
    made, rng = simulated(scenario, runs), seed_of(f"stuck {scenario.name}")
    told = []
    for pair in np.stack([made.treated, made.control], axis=1):
        if stands_still:
            start = rng.uniform(0, made.seconds[-1] - 60 * scenario.lasts_min)
            inside = (made.seconds >= start) & (made.seconds < start + 60 * scenario.lasts_min)
            pair[1, inside] = pair[1, np.flatnonzero(inside)[0]]
        told.append(any(each.told_by for each in still_stretches(made.seconds, pair, made.edges_s[2])))
    shows = scenario.noise_c >= 2 * scenario.display_c
    bars = {"low": 95.0} if stands_still and shows else {} if stands_still else {"high": FALSE_STUCK}
    return Row(scenario.name, (share("called stuck %", np.array(told), **bars),))


STUDIES = (
    Study("windows", "suggest_windows: the baseline ends before the change, by no more than 3 min; none where there is no change.",
          lambda runs=None: (finding_row(kind, runs or RUNS) for kind in FINDINGS)),
    Study("healthy", "Healthy thermometers with coarse displays are not called stuck.",
          lambda runs=None: (stuck_row(kind, runs or RUNS) for kind in HEALTHY)),
    Study("stuck", "Thermometers that stand still are found where their noise shows that they do.",
          lambda runs=None: (stuck_row(kind, runs or RUNS, True) for kind in STUCK)),
)  # fmt: skip
