"""How often the paired effect's range holds the truth: noise alone, drift, and each vessel's own change, on simulated runs."""

from dataclasses import dataclass, replace
from zlib import crc32

import numpy as np

from kit.bench.noise import displayed, wander
from kit.bench.study import Figure, Row, Study, share
from kit.statistics.cells import within
from kit.statistics.independent import welch_interval
from kit.statistics.paired import Question, lay_out, stuck, vessel_changes
from kit.statistics.quantiles import widened_factor
from kit.statistics.stacked import stacked_effects

RUNS = 1000
HELD, HELD_SLOW, WIDEST = 93.5, 92.0, 2.2


@dataclass(frozen=True)
class Scenario:
    """One kind of run. Seconds and °C: time between readings, memory of the noise, length of the baseline (and of the response), record
    before it, the display's step, the standard deviation of the difference's noise, white noise on top of it, and its drift a minute.
    `rise_c`: the true effect after 10 minutes, about. `uneven`: readings come at uneven times. `outliers`: the share of wild readings.
    `first_s`: when the first reading comes; `lamp_s`: when the lamp went on. `held`, `width`: bars for the coverage (%) and for the width
    against that of one who knows the noise."""

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
    rise_c: float = 1.0
    drift: str = "fixed"
    drift_c: float = 0.0
    tolerance: float = 0.0
    held: float | None = HELD
    width: float = WIDEST


NOISE_ALONE = (
    Scenario("1 s, white, 1 min", 1, 0),
    Scenario("1 s, 5 s, 1 min", 1, 5),
    Scenario("1 s, 20 s, 1 min", 1, 20),
    Scenario("1 s, 60 s, 1 min", 1, 60),
    Scenario("1 s, 20 s, 2 min", 1, 20, 120),
    Scenario("1 s, 20 s, 5 min", 1, 20, 300),
    Scenario("1 s, 60 s, 5 min", 1, 60, 300),
    Scenario("10 s, 20 s, 1 min", 10, 20),
    Scenario("60 s by hand, 0.1 °C, 20 s, 2 min", 60, 20, 120, display_c=0.1),
    Scenario("2 s, 0.1 °C, 10 s, 1 min", 2, 10, display_c=0.1),
    Scenario("1 s, 0.5 °C, 10 s, 1 min", 1, 10, display_c=0.5),
    Scenario("1 s, 0.1 °C, sd 0.05, 30 s, 1 min", 1, 30, display_c=0.1, noise_c=0.05),
    Scenario("1 s, 30 s + white 0.03, 1 min", 1, 30, white_c=0.03),
    Scenario("1 s, 10 s, outliers, 1 min", 1, 10, outliers=0.005),
    Scenario("1 s, 60 s + white 0.05, 2 min", 1, 60, 120, white_c=0.05, held=HELD_SLOW),
    Scenario("10 s, 0.1 °C, 60 s, 2 min", 10, 60, 120, display_c=0.1),
    Scenario("60 s, 0.1 °C, 10 s, 1 min (1 reading)", 60, 10, display_c=0.1, first_s=30),
    Scenario("60 s, 0.1 °C, 20 s, 5 min", 60, 20, 300, display_c=0.1),
    Scenario("60 s, 0.5 °C, 20 s, 2 min", 60, 20, 120, display_c=0.5),
    Scenario("2 s uneven, 20 s, 1 min", 2, 20, uneven=True),
)


def drifting(baseline_min, earlier_min, kind, size, held=HELD):
    """A scenario of the second table: step 2 s, memory 10 s, the default tolerance. Beyond the promise (`held` None) there is no bar."""
    name = f"{baseline_min} min after {earlier_min} min, {kind} {size:g}"
    width = WIDEST if held and kind in ("fixed", "uniform") else np.inf
    return Scenario(name, 2, 10, 60 * baseline_min, 60 * earlier_min, drift=kind, drift_c=size, tolerance=0.01, held=held, width=width)


DRIFT = (
    *(drifting(1, 0, "fixed", size) for size in (0, 0.01)),
    *(drifting(1, 0, "fixed", size, None) for size in (0.02, 0.05, 0.2)),
    *(drifting(5, 0, "fixed", size) for size in (0, 0.01)),
    *(drifting(5, 0, "fixed", size, None) for size in (0.02, 0.05)),
    *(drifting(1, 5, "fixed", size) for size in (0, 0.01, 0.02, 0.05)),
    *(drifting(1, 10, "fixed", size) for size in (0, 0.005, 0.01, 0.02, 0.05)),
    drifting(1, 10, "uniform", 0.01),
    drifting(1, 10, "mismatch", 0.1),
    drifting(1, 10, "mismatch", 0.3),
    drifting(1, 10, "walk", 0.01),
    drifting(1, 10, "walk", 0.03, None),
)

WHOLE_RUNS = tuple(
    replace(each, name=f"{each.name}, from lamp on", earlier_s=600, lamp_s=0)
    for each in NOISE_ALONE
    if each.baseline_s == 60 and each.name.startswith(("1 s", "10 s"))
)


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
    edges = (s.earlier_s, change_s, change_s, change_s + 60, change_s + 570, change_s + 630)
    seconds = times(s, edges[5], rng)
    own = rise(rng, seconds - change_s, runs) * s.rise_c
    drift = drifts(rng, s, seconds, runs)
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
    stores, as in `kit.physics.vessel`), seen after some delay through a thermometer's lag."""
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


def window_change(seconds, values, edges):
    """Mean of `values` (runs, readings) in the response less mean in the baseline: (runs,)."""
    baseline, response = (slice(*within(seconds, *pair)) for pair in (edges[:2], edges[4:]))
    return values[:, response].mean(-1) - values[:, baseline].mean(-1)


def effect_row(scenario, runs):
    """One row: how often the range holds the truth, its width beside that of one who knows the noise, and what independence would give."""
    made = simulated(scenario, runs)
    found = stacked_effects(made.seconds, made.treated, made.control, made.edges_s, Question(tolerance_c_per_min=scenario.tolerance))
    told = ~stuck(lay_out(made.seconds, made.edges_s), made.treated, made.control)
    off = (found.value - made.effect)[told]
    half_width, oracle = float(np.median(found.half_width[told])), oracle_of(scenario, off.std(), found.minutes[0])
    no_verdict = ~told | (abs(found.value) < found.half_width)
    return Row(
        scenario.name,
        (
            share("covers %", abs(off) <= found.half_width[told], low=-np.inf if scenario.held is None else scenario.held),
            Figure("half-width °C", half_width, places=4),
            Figure("oracle °C", oracle, places=4),
            Figure("ratio", half_width / oracle, high=scenario.width, places=2),
            share("measured %", found.measured),
            share("cannot tell %", no_verdict),
            share("independent covers %", independent_holds(made)),
        ),
    )


def oracle_of(scenario, spread, minutes):
    """Half-width of one who knows the noise: 1.96 times its `spread`, or more to allow for a drift of the tolerance, or for the true one."""
    sure = scenario.drift_c if scenario.drift == "fixed" else 0
    return float(spread * widened_factor(max(scenario.tolerance, sure) * minutes / spread))


def independent_holds(made):
    """In which runs the range of independent readings holds the truth; none where a window has one reading."""
    baseline, response = (slice(*within(made.seconds, *pair)) for pair in (made.edges_s[:2], made.edges_s[4:]))
    if min(baseline.stop - baseline.start, response.stop - response.start) < 2:
        return np.array([])
    found = [welch_interval(run[baseline], run[response]) for run in made.treated - made.control]
    return np.array([abs(value - true) <= factor * error for (value, error, factor), true in zip(found, made.effect)])


def vessel_row(scenario, runs):
    """One row for the treated vessel's own change."""
    made = simulated(scenario, runs)
    changes, error, factor = vessel_changes(lay_out(made.seconds, made.edges_s), made.treated, Question())
    off, half_width = changes - made.own, float(np.median(factor * error))
    figures = (
        share("covers %", abs(off) <= factor * error, low=scenario.held),
        Figure("half-width °C", half_width, places=4),
        Figure("oracle °C", oracle_of(scenario, off.std(), 0), places=4),
        Figure("ratio", half_width / oracle_of(scenario, off.std(), 0), places=2),
    )
    return Row(scenario.name, figures)


def rows_of(scenarios, row):
    """A study's rows, one for each scenario."""
    return lambda runs=None: (row(scenario, runs or RUNS) for scenario in scenarios)


STUDIES = (
    Study("noise", "Paired effect, noise alone (tolerance 0). Step, memory of the noise, baseline.", rows_of(NOISE_ALONE, effect_row)),
    Study("drift", "Paired effect, drift of the difference (tolerance 0.01 °C a minute). Rows without a bar lie beyond the promise.",
          rows_of(DRIFT, effect_row)),
    Study("vessels", "The treated vessel's own change, under a lamp that still warms it.",
          rows_of(NOISE_ALONE + WHOLE_RUNS, vessel_row)),
)  # fmt: skip
