"""How often the paired effect's range holds the truth: noise alone, drift, short records, and each vessel's own change."""

from dataclasses import replace

import numpy as np

from kit.coverage.invented import HELD, WIDEST, Scenario, simulated
from kit.coverage.study import Figure, Row, Study, share
from kit.statistics import lay_out, Question, stacked_effects, still_stretches, vessel_changes, welch_interval, widened_factor, within

RUNS, HELD_SLOW = 1000, 92.0


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

SHORT = tuple(
    Scenario(f"1 s, {memory} s, 1 min, read at {minutes:g} min", 1, memory, after_s=60 * minutes, width=np.inf)
    for memory in (5, 20, 60)
    for minutes in (2.5, 4.5)
)
WHOLE_RUNS = tuple(
    replace(each, name=f"{each.name}, from lamp on", earlier_s=600, lamp_s=0)
    for each in NOISE_ALONE
    if each.baseline_s == 60 and each.name.startswith(("1 s", "10 s"))
)


def effect_row(scenario, runs):
    """One row: how often the range holds the truth, its width beside that of one who knows the noise, and what independence would give."""
    made = simulated(scenario, runs)
    found = stacked_effects(made.seconds, made.treated, made.control, made.edges_s, Question(tolerance_c_per_min=scenario.tolerance))
    told = ~refused(made)
    held = (found.low <= made.effect) & (made.effect <= found.high)
    off = (found.value - made.effect)[told]
    half_width, oracle = float(np.median(found.half_width[told])), oracle_of(scenario, off.std(), found.minutes[0])
    no_verdict = ~told | (found.low <= 0) & (found.high >= 0)
    return Row(
        scenario.name,
        (
            share("covers %", held[told], low=-np.inf if scenario.held is None else scenario.held),
            Figure("half-width °C", half_width, places=4),
            Figure("oracle °C", oracle, places=4),
            Figure("ratio", half_width / oracle, high=scenario.width, places=2),
            share("measured %", found.measured),
            share("cannot tell %", no_verdict),
            share("independent covers %", independent_holds(made)),
        ),
    )


def refused(made):
    """Which runs the effect would refuse, as a thermometer surely stands still: (runs,)."""
    pairs = zip(made.treated, made.control)
    return np.array([any(each.told_by for each in still_stretches(made.seconds, np.stack(pair), made.edges_s[2])) for pair in pairs])


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
    Study("short", "Paired effect of a record that ends a few minutes after the change (tolerance 0).", rows_of(SHORT, effect_row)),
    Study("vessels", "The treated vessel's own change, under a lamp that still warms it.",
          rows_of(NOISE_ALONE + WHOLE_RUNS, vessel_row)),
)  # fmt: skip
