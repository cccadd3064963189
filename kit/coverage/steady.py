"""How often `check_steady` says steady or drifting rightly, and falsely, on simulated stretches."""

from dataclasses import dataclass

import numpy as np

from kit.bench import displayed, wander
from kit.coverage.effects import rows_of
from kit.coverage.invented import seed_of
from kit.coverage.study import Figure, Row, Study, share
from kit.statistics import coverage_factor, LEVEL, slopes, wait_for_steady

NOISE_C, FALSE_STEADY, WAITS = 0.02, 5.0, 1000


@dataclass(frozen=True)
class Stretch:
    """One kind of stretch: seconds between readings, memory of the noise (s), display's step (°C), tolerance (°C/min), minutes watched."""

    step_s: float
    memory_s: float
    display_c: float
    tolerance: float
    minutes: float

    def __str__(self):
        return f"{self.step_s:g} s, {self.memory_s:g} s, {self.display_c:g} °C, tolerance {self.tolerance:g}, {self.minutes:g} min"


KINDS = ((1, 5, 0.01), (1, 20, 0.01), (1, 60, 0.01), (2, 10, 0.1), (10, 20, 0.01), (60, 20, 0.1))
STRETCHES = (
    *(Stretch(*kind, 0.02, minutes) for kind in KINDS for minutes in (2, 5, 10) if minutes * 60 / kind[0] > 3),
    *(Stretch(*kind, 0.01, minutes) for kind in KINDS[:5] for minutes in (5, 10, 15)),
)


def simulated(stretch, drift, runs):
    """Seconds, and treated and control (runs, readings), whose difference drifts by `drift` °C a minute."""
    rng, s = seed_of(f"{stretch} {drift:g}"), stretch
    seconds = np.arange(0, 60 * s.minutes + s.step_s / 2, s.step_s)
    vessels = [
        25 + rng.uniform(0, 1, (runs, 1)) + slope * seconds / 60 + wander(rng, seconds, NOISE_C / 2**0.5, s.memory_s, runs)
        for slope in (drift, 0)
    ]  # fmt: skip
    return seconds, displayed(vessels, s.display_c)


def steady_row(stretch, runs):
    """One row: right and false verdicts without drift, at exactly the tolerance and at twice it, and how often the slope's range holds."""
    found, covered = {}, []
    for times in (0, 1, 2):
        drift = times * stretch.tolerance
        found[times] = slopes(*simulated(stretch, drift, runs), (stretch.display_c,) * 2)
        covered.append(abs(found[times].slope - drift) <= coverage_factor(LEVEL, found[times].dof) * found[times].error)
    steady = {times: each.steady(stretch.tolerance, stretch.minutes) for times, each in found.items()}
    drifts = {times: each.drifting(stretch.tolerance) for times, each in found.items()}
    figures = (
        share("steady at 0 %", steady[0]),
        share("steady at tolerance %", steady[1], high=FALSE_STEADY),
        share("drifting there %", drifts[1]),
        share("drifting at twice %", drifts[2]),
        share("cannot tell at 0 %", ~steady[0] & ~drifts[0]),
        share("slope covers %", np.concatenate(covered)),
    )
    return Row(str(stretch), figures)


@dataclass(frozen=True)
class Waiting:
    """A level difference, looked at for `minutes`: seconds between readings, memory of the noise (s), display's step, tolerance, a drift."""

    step_s: float
    memory_s: float
    display_c: float
    tolerance: float
    minutes: float
    drift: float = 0.0

    def __str__(self):
        return f"{self.step_s:g} s, {self.memory_s:g} s, {self.display_c:g} °C, {self.minutes:g} min, {self.tolerance:g}, drift {self.drift:g}"


WAITINGS = (
    Waiting(1, 10, 0.01, 0.01, 5), Waiting(1, 20, 0.01, 0.01, 5), Waiting(1, 60, 0.01, 0.01, 5), Waiting(2, 10, 0.1, 0.01, 10),
    Waiting(2, 10, 0.1, 0.02, 5), Waiting(2, 10, 0.5, 0.02, 10), Waiting(60, 20, 0.1, 0.02, 10), Waiting(1, 10, 0.01, 0.01, 5, 0.005),
)  # fmt: skip
# Nine in ten, less two Monte-Carlo errors of a thousand runs.
WAIT_KEPT = 88.0


def waiting_row(kind, runs):
    """One row: of those that were not called steady at once, how long they were told to wait, and whether that was enough."""
    whole = Stretch(kind.step_s, kind.memory_s, kind.display_c, kind.tolerance, 80)
    seconds, (treated, control) = simulated(whole, kind.drift, runs)
    steps, kept, told = (kind.display_c,) * 2, [], []
    for pair in zip(treated, control):
        channels, first = np.array(pair)[:, None], seconds <= 60 * kind.minutes
        found = slopes(seconds[first], channels[..., first], steps)
        waits = None if found.steady(kind.tolerance, kind.minutes)[0] else wait_for_steady(found, kind.minutes, kind.tolerance)
        if waits is None:
            continue
        longer = kind.minutes + np.ceil(2 * waits[1]) / 2
        then = seconds <= 60 * longer
        kept.append(slopes(seconds[then], channels[..., then], steps).steady(kind.tolerance, longer)[0])
        told.append(waits)
    soonest, surely = np.median(told, axis=0) if told else (np.nan, np.nan)
    figures = (
        share("kept %", np.array(kept, bool), low=WAIT_KEPT),
        Figure("soonest min", float(soonest)),
        Figure("surely min", float(surely)),
        share("told to wait %", np.arange(runs) < len(told)),
    )
    return Row(str(kind), figures)


STUDIES = (
    Study("steady", "check_steady. Step, memory of the noise, display.", rows_of(STRETCHES, steady_row)),
    Study("waiting", "check_steady: is the longer of the two waits enough? Step, memory, display, minutes seen, tolerance.",
          lambda runs=None: (waiting_row(kind, runs or WAITS) for kind in WAITINGS)),
)  # fmt: skip
