"""How often a warming curve's numbers hold the truth: how far, how soon, still on its way; on rises of one and two speeds and none."""

from dataclasses import dataclass

import numpy as np
import pandas as pd

from kit.analysis.curve import fit_warming
from kit.bench import displayed, wander
from kit.coverage.invented import HELD, seed_of, slow_noise
from kit.coverage.study import Figure, Row, Study, share
from kit.records import Run, Source, Windows

RUNS, NOISE_C = 1000, 0.02
FALSE_RISE = 5.5


@dataclass(frozen=True)
class Rise:
    """One kind of record. `speeds`: time constants (s) of a rise, one or two (the second gas, 40 % of it); none: no rise. `fill_s`: how long the
    gas comes in; `late_s`: by how much the change is marked too late. Memory of the noise (s), size of the rise (°C), drift (°C a minute),
    seconds between readings, the display's step (°C), minutes before the baseline of two minutes and watched after the change. `slow`, `slow_c`: a slow
    wander on top, and its size (°C). `held`: the bar for what is determined, None where the promise ends."""

    speeds: tuple = (240, 40)
    fill_s: int = 0
    late_s: float = 0.0
    memory_s: float = 10.0
    rise_c: float = 1.0
    drift: float = 0.0
    step_s: float = 1.0
    display_c: float = 0.01
    earlier_min: float = 10.0
    watched_min: float = 10.5
    slow: str = ""
    slow_c: float = 0.0
    held: float | None = HELD

    def __str__(self):
        speeds = "/".join(map(str, self.speeds)) + " s" if self.speeds else "no rise"
        usual = Rise()
        told = [
            f"{name} {getattr(self, key):g}{unit}"
            for key, name, unit in (
                ("fill_s", "filled", " s"), ("late_s", "marked late", " s"), ("memory_s", "memory", " s"), ("rise_c", "rise", ""),
                ("drift", "drift", ""), ("step_s", "every", " s"), ("display_c", "display", ""), ("watched_min", "watched", " min"),
            )
            if getattr(self, key) != getattr(usual, key)
        ]  # fmt: skip
        slow = [f"{self.slow} {self.slow_c:g}"] if self.slow else []
        return ", ".join([speeds, *told, *slow, f"{self.earlier_min:g} min earlier"])


def both(**kind):
    """The same with nothing and with ten minutes before the baseline."""
    return Rise(earlier_min=0.0, **kind), Rise(earlier_min=10.0, **kind)


RISES = (
    *both(speeds=(100,)), *both(speeds=(100,), memory_s=40), *both(speeds=(400,)), *both(speeds=(1000,)), *both(), *both(speeds=(900, 60)),
    *both(fill_s=60), *both(speeds=(100,), fill_s=30), *both(fill_s=90), *both(drift=0.01), *both(step_s=6.0),
    *both(speeds=(150,), display_c=0.1), *both(display_c=0.1, drift=0.01), *both(speeds=(100,), step_s=60.0, display_c=0.1),
    *both(step_s=60.0, display_c=0.1), Rise(step_s=60.0, display_c=0.5, rise_c=4.0), *both(rise_c=0.3), *both(speeds=(100,), watched_min=4.0),
    Rise(slow="1/f", slow_c=0.03), Rise(slow="walk", slow_c=0.03, held=None), Rise(late_s=30.0), Rise(late_s=60.0),
    *both(speeds=(), drift=0.01), Rise(speeds=(), slow="1/f", slow_c=0.03),
)  # fmt: skip


def records(kind, runs):
    """`runs` Runs of a kind, their windows, and what is true: the rise between the windows (°C) and the minutes to 63 % of it (nan: none)."""
    rng, s = seed_of(f"curve {kind}"), kind
    change_s = 60 * (2 + s.earlier_min)
    marked_s, end_s = change_s + s.late_s, change_s + 60 * s.watched_min
    seconds = np.arange(0, end_s + s.step_s / 2, s.step_s)
    fine = np.arange(0.0, 60 * s.watched_min + 1)
    course = s.rise_c * filled(fine, s)
    difference = np.interp(seconds - change_s, fine, course) + s.drift * seconds / 60
    slow = slow_noise(rng, seconds, s.slow, s.slow_c, runs)
    noise = [wander(rng, seconds, NOISE_C / 2**0.5, s.memory_s, runs) for _ in range(2)]
    treated, control = (
        displayed(25 + rng.uniform(0, 1, (runs, 1)) + own, s.display_c) for own in (difference + slow + noise[0], noise[1])
    )
    index, source = pd.Index(seconds, name="elapsed_s"), Source("simulated", "")
    made = [Run(pd.DataFrame({"treated": one, "control": other}, index=index), "simulated", source) for one, other in zip(treated, control)]
    windows = Windows.of_seconds((marked_s - 120, marked_s, marked_s, marked_s + 60, end_s - 60, end_s))
    return made, windows, *truth(seconds, np.interp(seconds - change_s, fine, course), windows)


def filled(since_s, kind):
    """The rise, 0 to about 1, at whole seconds since the change, the gas coming in evenly over `fill_s`."""
    if not kind.speeds:
        return 0 * since_s
    parts = (0.6, 0.4) if len(kind.speeds) == 2 else (1.0,)
    at_once = 1 - sum(part * np.exp(-since_s / time) for part, time in zip(parts, kind.speeds))
    if not kind.fill_s:
        return at_once
    return np.convolve(at_once, np.full(kind.fill_s, 1 / kind.fill_s))[: len(since_s)]


def truth(seconds, course, windows):
    """(rise between the windows, minutes from the marked change to 63 % of that way), without noise and drift."""
    inside = [(seconds >= start - 1e-6) & (seconds <= end + 1e-6) for start, end in (windows.seconds[:2], windows.seconds[4:])]
    before, after = (course[each].mean() for each in inside)
    way = before + (after - before) * (1 - np.exp(-1))
    times = np.interp(way, course, seconds) if after > before else np.nan
    return after - before, (times - windows.seconds[2]) / 60


def curve_row(kind, runs):
    """One row. What is not determined still bounds the time from below; that is counted with the rest."""
    made, windows, rise, time = records(kind, runs)
    curves = [fit_warming(run, windows) for run in made]
    determined = np.array([curve.determined for curve in curves])
    held = np.array([curve.time_to_63.holds(time) for curve in curves])
    widths = [curve.time_to_63.half_width * 60 for curve in curves if curve.determined]
    bar = -np.inf if kind.held is None else kind.held
    none = {"high": FALSE_RISE} if not kind.speeds else {}
    figures = (
        share("rise covers %", np.array([curve.rise.holds(rise) for curve in curves]), low=bar),
        share("told from none %", np.array([not curve.rise.holds(0) for curve in curves]), **none),
        share("determined %", determined),
        share("time covers %", held[determined] if kind.speeds else np.array([]), low=bar),
        Figure("time ± s", float(np.median(widths)) if widths else np.nan, places=0),
        share("at least covers %", held[~determined] if kind.speeds else np.array([]), low=bar),
        share("still rising %", np.array([curve.still_rising for curve in curves]), **none),
    )
    return Row(str(kind), figures)


STUDIES = (
    Study("curve", "fit_warming: rise, time to 63 %, still rising. Two speeds (240 s and 40 s), 2 min of baseline, unless said.",
          lambda runs=None: (curve_row(kind, runs or RUNS) for kind in RISES)),
)  # fmt: skip
