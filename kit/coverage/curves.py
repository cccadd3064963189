"""How often the ranges of a warming curve hold the truth, and how wide they are, on simulated rises of one time constant."""

from dataclasses import dataclass
from math import inf, isfinite

import numpy as np
import pandas as pd

from kit.analysis.curve import fit_warming
from kit.coverage.invented import HELD, seed_of
from kit.bench import displayed, wander
from kit.coverage.study import Figure, Row, Study, share
from kit.records import Run, Source, Windows
from kit.statistics import saturating

RUNS, RISE_C, NOISE_C, DELAY_S, WATCHED_MIN = 300, 1.0, 0.02, 20.0, 10
# By how much a width may exceed that of the plain method. Shorter records mostly give no width, only 'at least'.
WIDER, ANSWERED_FROM = 1.1, 1.5


@dataclass(frozen=True)
class Rise:
    """One kind of record: memory of the noise (s), how many time constants it lasts after the change, seconds between readings, the
    display's step (°C), the baseline (min). `ratio` and `half_width`: the high/low of the time constant and the half-width of the rise (°C)
    that the plain method reached, infinite where there is none to compare with."""

    memory_s: float
    lasts: float
    ratio: float = inf
    half_width: float = inf
    step_s: float = 2.0
    display_c: float = 0.01
    baseline_min: float = 2.0

    def __str__(self):
        return f"{self.memory_s:g} s, record {self.lasts:g} τ, {self.step_s:g} s, {self.display_c:g} °C"


WIDTHS = {
    5: ((10, 1.13, 0.016), (5, 1.12, 0.018), (3, 1.16, 0.026), (2, 1.24, 0.047), (1.5, 1.36, 0.081), (1, 1.74, 0.184), (0.5, 9.54, 1.680)),
    15: ((10, 1.27, 0.045), (5, 1.30, 0.051), (3, 1.42, 0.070), (2, 1.66, 0.119), (1.5, 2.04, 0.204), (1, 4.02, 0.548), (0.5, inf, 4.318)),
    40: ((10, 1.25, 0.050), (5, 1.31, 0.057), (3, 1.43, 0.076), (2, 1.68, 0.125), (1.5, 2.09, 0.205), (1, 3.98, 0.566), (0.5, inf, 4.344)),
}
RISES = (
    *(Rise(memory, *row) for memory, rows in WIDTHS.items() for row in rows),
    Rise(0, 3),
    Rise(20, 3, step_s=10, display_c=0.1),
    Rise(10, 3, display_c=0.1),
    Rise(10, 2, display_c=0.1),
    Rise(20, 3, step_s=60, display_c=0.1, baseline_min=5),
    Rise(10, 3, display_c=0.5),
)


def records(kind, runs):
    """`runs` Runs of a kind, their windows, and the true time constant in minutes. Levels have any phase of the display."""
    rng, s = seed_of(f"curve {kind}"), kind
    change_s, watched_s = 60 * s.baseline_min, 60 * WATCHED_MIN
    seconds = np.arange(0, change_s + watched_s + s.step_s / 2, s.step_s)
    rise = RISE_C * saturating(seconds, watched_s / s.lasts, change_s + DELAY_S)
    noise = [wander(rng, seconds, NOISE_C / 2**0.5, s.memory_s, runs) for _ in range(2)]
    treated, control = (
        displayed(level + own + 25 + rng.uniform(0, 1, (runs, 1)), s.display_c) for level, own in zip((rise, 0 * rise), noise)
    )
    index, source = pd.Index(seconds, name="elapsed_s"), Source("simulated", "")
    made = [Run(pd.DataFrame({"treated": one, "control": other}, index=index), "simulated", source) for one, other in zip(treated, control)]
    minutes = s.baseline_min + WATCHED_MIN
    return made, Windows((0, s.baseline_min), (s.baseline_min, s.baseline_min + 1), (minutes - 1, minutes)), WATCHED_MIN / s.lasts


def curve_row(kind, runs):
    """One row. A record that says 'at least' holds the truth when that is so; one that says nothing is not counted."""
    made, windows, time_constant = records(kind, runs)
    curves = [fit_warming(run, windows) for run in made]
    told = [curve for curve in curves if isfinite(curve.rise.low)]
    held = {
        name: np.array([getattr(curve, name).holds(true) for curve in told])
        for name, true in (("rise", RISE_C), ("time_constant", time_constant))
    }
    delays = np.array([curve.delay.holds(DELAY_S / 60) for curve in told])
    ratio, half_width = widths(curves)
    wider = WIDER if kind.lasts >= ANSWERED_FROM else inf
    figures = (
        share("rise covers %", held["rise"], low=HELD),
        share("τ covers %", held["time_constant"], low=HELD),
        share("delay covers %", delays),
        Figure("half-width °C", half_width, high=wider * kind.half_width, places=3),
        Figure("τ high/low", ratio, high=wider * kind.ratio, places=2),
        share("determined %", np.array([curve.determined for curve in curves])),
        share("says nothing %", np.array([not isfinite(curve.rise.low) for curve in curves])),
    )
    return Row(str(kind), figures)


def widths(curves):
    """Medians of the time constant's high/low and of the rise's half-width (°C) over all curves that the records allow."""
    found = [curve.found.allowed for curve in curves if curve.found]
    ratios = [each.time_constant_s[1] / max(each.time_constant_s[0], 1e-9) for each in found]
    ends = [each.range_at(inf) for each in found]
    return (float(np.median(ratios)), float(np.median([(high - low) / 2 for low, high in ends]))) if found else (inf, inf)


STUDIES = (
    Study("curve", "fit_warming. Memory of the noise, length of the record in time constants, step, display.",
          lambda runs=None: (curve_row(kind, runs or RUNS) for kind in RISES)),
)  # fmt: skip
