"""A hundred runs of one bench whose truth is known: the same vessels, the same gas, another chance each time; and the ranges found in them."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from kit.bench import displayed, wander
from kit.statistics import Terms, stacked_effects, welch_interval, within

RUNS, RISE_C = 100, 1.5
NOISE_C, MEMORY_S = 0.06, 40.0  # the wander of the difference, and for how long its readings stay alike
DRIFT_C_PER_MIN = Terms().tolerance_c_per_min  # up or down, by chance: as much as an honest range allows for
LONGEST_MIN = 10
EDGES_S = (-60, 0, 0, 60, 570, 630)  # baseline, perturbation and response; the gas goes in at 0
SECONDS = np.arange(-60 * LONGEST_MIN, EDGES_S[-1] + 1.0)


@dataclass(frozen=True, eq=False)
class Ranges:
    """What a hundred runs say: `low` to `high` of each (runs,), and the `truth` of all, °C."""

    low: np.ndarray
    high: np.ndarray
    truth: float

    @property
    def hold(self):
        """Which ranges hold the truth: (runs,)."""
        return (self.low <= self.truth) & (self.truth <= self.high)

    @property
    def half_width(self):
        """Half the length of the middle one, by length, °C."""
        return float(np.median(self.high - self.low) / 2)


@lru_cache(maxsize=4)
def temperatures(seed):
    """(warmth by the gas (readings,), treated (runs, readings), control) in °C, second by second, as a display with no steps would show them."""
    rng = np.random.default_rng(seed)
    since = np.maximum(SECONDS, 0)
    rise = RISE_C * (1 - 0.65 * np.exp(-since / 20) - 0.35 * np.exp(-since / 240))
    drift = DRIFT_C_PER_MIN * rng.choice([-1, 1], (RUNS, 1)) * SECONDS / 60
    noise = [wander(rng, SECONDS, NOISE_C / 2**0.5, MEMORY_S, RUNS) for _ in range(2)]
    treated, control = 29 + rng.uniform(0, 1, (2, RUNS, 1))
    return rise, treated + rise + drift + noise[0], control + noise[1]


def logged(seed, step_s, quiet_min, display_c):
    """(seconds, treated (runs, readings), control, truth) of the hundred runs of a `seed` as their loggers kept them."""
    rise, *warm = temperatures(seed)
    kept = (SECONDS >= -60 * quiet_min) & (SECONDS % step_s == 0)
    before, after = windows_in(SECONDS[kept])
    truth = float(rise[kept][after].mean() - rise[kept][before].mean())
    return SECONDS[kept], *(displayed(each[:, kept], display_c) for each in warm), truth


def windows_in(seconds):
    """Where baseline and response lie in `seconds`, as slices."""
    return [slice(*within(seconds, *pair)) for pair in (EDGES_S[:2], EDGES_S[4:])]


@lru_cache(maxsize=64)
def ranges_of(seed, step_s, quiet_min, display_c):
    """{'honest': `Ranges`, 'naive': `Ranges`} of the hundred runs of a `seed`, logged every `step_s`, from `quiet_min` before the gas.

    Honest: `stacked_effects`, 95 %, with the kit's usual tolerance for drift. Naive: `welch_interval`, each reading taken for an independent look.
    """
    seconds, treated, control, truth = logged(seed, step_s, quiet_min, display_c)
    before, after = windows_in(seconds)
    found = stacked_effects(seconds, treated, control, EDGES_S)
    plain = np.array([welch_interval(run[before], run[after]) for run in treated - control])
    reach = plain[:, 1] * plain[:, 2]
    return {"honest": Ranges(found.low, found.high, truth), "naive": Ranges(plain[:, 0] - reach, plain[:, 0] + reach, truth)}
