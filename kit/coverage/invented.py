"""Simulated records of the paired experiment, many of a kind at once, for the coverage study: noise, lamp, rise and drift of known size."""

from dataclasses import dataclass
from zlib import crc32

import numpy as np

from kit.bench import displayed, wander
from kit.statistics import within

HELD, WIDEST = 93.5, 2.2


@dataclass(frozen=True)
class Scenario:
    """One kind of run. Seconds and °C: time between readings, memory of the noise, length of the baseline, record before it, the display's
    step, the standard deviation of the difference's noise, and of white noise on top of it. `uneven`: readings come at uneven times.
    `outliers`: the share of wild readings. `first_s`: when the first reading comes; `lamp_s`: when the lamp went on; `after_s`: how long
    after the change the response has its middle. `rise_c`: the true effect after 10 minutes, about. `drift`, `drift_c`: its kind and its
    size, and the `tolerance` that is allowed for it, °C a minute. `slow`, `slow_c`, `period_min`: a slow wander on top ('1/f', '1/f²', 'walk',
    'cycle'), its size (°C) and a cycle's length. `jump_c`: a jump in the treated vessel somewhere in `jump_min` (minutes from the change, least
    and most), which goes back after `lasts_min` or stays. `held`, `width`: bars for the coverage (%) and for the width against
    that of one who knows the noise."""

    name: str
    step_s: float
    memory_s: float
    baseline_s: float = 60
    earlier_s: float = 0
    display_c: float = 0.01
    noise_c: float = 0.02
    white_c: float = 0.0
    uneven: bool = False
    outliers: float = 0.0
    first_s: float = 0.0
    lamp_s: float = -600
    after_s: float = 600
    rise_c: float = 1.0
    drift: str = "fixed"
    drift_c: float = 0.0
    tolerance: float = 0.0
    slow: str = ""
    slow_c: float = 0.0
    period_min: float = 0.0
    jump_c: float = 0.0
    jump_min: tuple = (0.0, 0.0)
    lasts_min: float = np.inf
    held: float | None = HELD
    width: float = WIDEST


@dataclass(frozen=True, eq=False)
class Simulated:
    """Records (runs, readings) at `seconds` with the six `edges_s` of their windows, and what is true of each: the effect, and the treated
    vessel's own change, °C (runs,)."""

    seconds: np.ndarray
    treated: np.ndarray
    control: np.ndarray
    edges_s: tuple
    effect: np.ndarray
    own: np.ndarray


def seed_of(text):
    """A random generator that the name of a scenario fixes."""
    return np.random.default_rng(crc32(text.encode()))


def simulated(scenario, runs):
    """`runs` records of a scenario. Under a lamp that still warms both vessels, the treated one rises in two steps of random speed after a
    random delay; levels have any phase of the display."""
    s, rng = scenario, seed_of(scenario.name)
    change_s = s.earlier_s + s.baseline_s
    read_s = change_s + s.after_s - 30
    edges = (s.earlier_s, change_s, change_s, change_s + 60, read_s, read_s + 60)
    seconds = times(s, edges[5], rng)
    own = rise(rng, seconds - change_s, runs) * s.rise_c
    drift = drifts(rng, s, seconds, runs)
    if s.slow or s.jump_c:
        drift = drift + slow_noise(rng, seconds, s.slow, s.slow_c, runs, s.period_min) + jumps(rng, s, seconds - change_s, runs)
    noise = [wander(rng, seconds, s.noise_c / 2**0.5, s.memory_s, runs) for _ in range(2)]
    noise = [each + s.white_c / 2**0.5 * rng.standard_normal(each.shape) for each in noise]
    noise[0] += 10 * s.noise_c * rng.standard_normal(noise[0].shape) * (rng.random(noise[0].shape) < s.outliers)
    strength, settles_s = rng.uniform(4, 10, (runs, 1)), rng.uniform(150, 350, (runs, 1))
    lamp = 25 + rng.uniform(0, 1, (2, runs, 1)) - strength * np.exp(-(seconds - s.lamp_s) / settles_s)
    treated, control = displayed(lamp[0] + own + drift + noise[0], s.display_c), displayed(lamp[1] + noise[1], s.display_c)
    truths = [window_change(seconds, each, edges) for each in (own, lamp[0] + own + drift)]
    return Simulated(seconds, treated, control, edges, *truths)


def times(scenario, end_s, rng):
    """When readings are taken, seconds; uneven ones lie half to one and a half steps apart."""
    steps = int((end_s - scenario.first_s) // scenario.step_s) + 1
    gaps = scenario.step_s * (rng.uniform(0.5, 1.5, steps) if scenario.uneven else np.ones(steps))
    seconds = scenario.first_s + np.cumsum(gaps) - gaps[0]
    return seconds[seconds <= end_s]


def rise(rng, since_s, runs):
    """A rise to about 1 within 10 minutes, sizes and speeds different in each run: gas that warms at once and a wall that follows (two heat
    stores, as in `kit.physics.heat.vessel`), seen after some delay through a thermometer's lag."""
    gas, wall, lag, part, delay = (rng.uniform(*ends, (runs, 1)) for ends in ((5, 10), (120, 300), (12, 60), (0.1, 0.5), (0, 40)))
    since = np.maximum(since_s - delay, 0)
    missing = [(tau * np.exp(-since / tau) - lag * np.exp(-since / lag)) / (tau - lag) for tau in (gas, wall)]
    return 1 - part * missing[0] - (1 - part) * missing[1]


def drifts(rng, scenario, seconds, runs):
    """What the difference does by itself, °C: a fixed slope, slopes of any size up to it, a mismatch that dies away over 4 min, a walk."""
    minutes, size = seconds / 60, scenario.drift_c
    if scenario.drift == "uniform":
        return rng.uniform(-size, size, (runs, 1)) * minutes
    if scenario.drift == "mismatch":
        return size * rng.choice([-1, 1], (runs, 1)) * -np.exp(-minutes / 4)
    if scenario.drift == "walk":
        return np.cumsum(rng.standard_normal((runs, len(seconds))) * size * np.sqrt(np.diff(minutes, prepend=0)), axis=1)
    return np.broadcast_to(size * minutes, (runs, len(seconds)))


def slow_noise(rng, seconds, kind, size, runs, period_min=0.0):
    """A slow wander of the difference, (runs, readings), °C: none, 'walk' (`size` a square root of a minute), 'cycle' of `period_min` at any
    phase (`size` its amplitude), '1/f' or '1/f²' noise (`size` its standard deviation; power falls so with frequency, made by its spectrum)."""
    if not kind:
        return np.zeros((runs, len(seconds)))
    minutes = seconds / 60
    if kind == "walk":
        return np.cumsum(rng.standard_normal((runs, len(seconds))) * size * np.sqrt(np.diff(minutes, prepend=0)), axis=1)
    if kind == "cycle":
        return size * np.sin(2 * np.pi * (minutes / period_min + rng.random((runs, 1))))
    steps = 4 * len(seconds)
    frequencies = np.fft.rfftfreq(steps)
    frequencies[0] = np.inf
    spectrum = rng.standard_normal((2, runs, len(frequencies))) * frequencies ** (-0.5 if kind == "1/f" else -1.0)
    made = np.fft.irfft(spectrum[0] + 1j * spectrum[1], steps)[:, : len(seconds)]
    return size * made / made.std(axis=1).mean()


def jumps(rng, scenario, since_s, runs):
    """A scenario's jumps, one a run at a place of its own, (runs, readings), °C."""
    begins = 60 * rng.uniform(*scenario.jump_min, (runs, 1))
    return scenario.jump_c * ((since_s > begins) & (since_s < begins + 60 * scenario.lasts_min))


def window_change(seconds, values, edges):
    """Mean of `values` (runs, readings) in the response less mean in the baseline: (runs,)."""
    baseline, response = (slice(*within(seconds, *pair)) for pair in (edges[:2], edges[4:]))
    return values[:, response].mean(-1) - values[:, baseline].mean(-1)
