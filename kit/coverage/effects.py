"""How often the paired effect's range holds the truth: noise alone, drift, short records, and each vessel's own change."""

from dataclasses import replace

import numpy as np

from kit.coverage.invented import HELD, WIDEST, Scenario, simulated
from kit.coverage.study import Figure, Row, Study, share
from kit.statistics import heard, lay_out, Terms, single_effect, stacked_effects, still_stretches, vessel_changes, welch_interval, widened_factor, within

RUNS, HELD_SLOW = 1000, 92.0
# Bars below 93.5, each for what no record of the kind can show. A step within 90 s of the change looks like warming. A draught in the baseline
# with nothing before it leaves no quiet minute to compare with. A walk, or a cycle longer than what came before, is never seen whole.
HELD_STEP, HELD_BASELINE, HELD_WALK, HELD_CYCLE = 89.0, 89.0, 92.0, 90.0


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
    found = stacked_effects(made.seconds, made.treated, made.control, made.edges_s, Terms(tolerance_c_per_min=scenario.tolerance))
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
    changes, error, factor = vessel_changes(lay_out(made.seconds, made.edges_s), made.treated, Terms())
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


def single_row(scenario, runs):
    """One row of whole effects, one run at a time, with what only they look for: a jump, a bend, a thermometer that stands still."""
    made = simulated(scenario, runs)
    question, kept = Terms(tolerance_c_per_min=scenario.tolerance), heard(made.seconds, made.edges_s)
    seconds, layout = made.seconds[kept], lay_out(made.seconds[kept], made.edges_s)
    pairs = np.stack([made.treated, made.control], axis=1)[..., kept]
    found = [single_effect(layout, seconds, pair, made.edges_s, question) for pair in pairs]
    told = np.array([not each.lost for each in found])
    held = np.array([each.low <= true <= each.high for each, true in zip(found, made.effect)])
    widths = [(each.high - each.low) / 2 for each in found if not each.lost]
    figures = (
        share("covers %", held[told], low=-np.inf if scenario.held is None else scenario.held),
        Figure("half-width °C", float(np.median(widths)) if widths else np.nan, places=3),
        share("jump found %", np.array([each.jump is not None for each in found])),
        share("bent %", np.array([bool(each.found.bent[0]) for each in found])),
        share("no number %", ~told),
    )
    return Row(scenario.name, figures)


def beside(name, *, earlier_min=10, **kind):
    """A scenario of the third table: a reading a second, memory 10 s, one minute of baseline, the default tolerance."""
    settings = {"step_s": 1, "memory_s": 10, "earlier_s": 60 * earlier_min, "tolerance": 0.01, "width": np.inf, **kind}
    return Scenario(f"{name}, {earlier_min} min earlier", **settings)


JUMPS = tuple(
    beside(name, earlier_min=earlier_min, **kind)
    for earlier_min in (10, 0)
    for name, kind in (
        ("nothing", {}),
        ("memory 60 s", {"memory_s": 60}),
        ("0.1 °C display", {"display_c": 0.1}),
        ("outliers", {"outliers": 0.005}),
        ("step 0.1 after 1 to 9 min", {"jump_c": 0.1, "jump_min": (1, 9), "held": HELD_STEP}),
        ("step 0.1 after 2 to 8 min", {"jump_c": 0.1, "jump_min": (2, 8)}),
        ("step 0.3 after 2 to 8 min", {"jump_c": 0.3, "jump_min": (2, 8)}),
        ("draught 0.15 in the response", {"jump_c": 0.15, "jump_min": (8.7, 9.8), "lasts_min": 1}),
        ("draught 0.5 in the response", {"jump_c": 0.5, "jump_min": (8.7, 9.8), "lasts_min": 1}),
        ("draught 0.15 in the baseline", {"jump_c": 0.15, "jump_min": (-1.5, -0.7), "lasts_min": 1, "held": HELD if earlier_min else HELD_BASELINE}),
        ("draught 0.5 in the baseline", {"jump_c": 0.5, "jump_min": (-1.5, -0.7), "lasts_min": 1, "held": HELD if earlier_min else HELD_BASELINE}),
    )
) + (beside("step 0.1 five min before", jump_c=0.1, jump_min=(-5.5, -4.5)),)
SLOW = (
    *(beside(f"1/f {size:g}", slow="1/f", slow_c=size) for size in (0.02, 0.05)),
    beside("1/f² 0.05", slow="1/f²", slow_c=0.05),
    *(beside(f"walk {size:g}", slow="walk", slow_c=size, held=held) for size, held in ((0.01, HELD), (0.03, HELD_WALK))),
    *(beside(f"walk {size:g}", earlier_min=0, slow="walk", slow_c=size, held=None) for size in (0.01, 0.03)),
    *(beside(f"cycle {size:g} of {period} min", slow="cycle", slow_c=size, period_min=period, held=held)
      for size, period, held in ((0.05, 20, HELD), (0.15, 15, HELD), (0.15, 20, HELD), (0.15, 25, HELD_CYCLE), (0.1, 15, HELD), (0.1, 20, HELD))),
    *(beside(f"cycle 0.1 of {period} min", slow="cycle", slow_c=0.1, period_min=period, held=None) for period in (30, 40)),
    beside("cycle 0.15 of 15 min", earlier_min=0, slow="cycle", slow_c=0.15, period_min=15, held=None),
)  # fmt: skip

STUDIES = (
    Study("noise", "Paired effect, noise alone (tolerance 0). Step, memory of the noise, baseline.", rows_of(NOISE_ALONE, effect_row)),
    Study("drift", "Paired effect, drift of the difference (tolerance 0.01 °C a minute). Rows without a bar lie beyond the promise.",
          rows_of(DRIFT, effect_row)),
    Study("jumps", "Paired effect, a step or a draught that no warming makes (tolerance 0.01 °C a minute). One run at a time.",
          rows_of(JUMPS, single_row)),
    Study("slow", "Paired effect, slow walks, 1/f noise and cycles of the room (tolerance 0.01 °C a minute). Rows without a bar lie beyond it.",
          rows_of(SLOW, single_row)),
    Study("short", "Paired effect of a record that ends a few minutes after the change (tolerance 0).", rows_of(SHORT, effect_row)),
    Study("vessels", "The treated vessel's own change, under a lamp that still warms it.",
          rows_of(NOISE_ALONE + WHOLE_RUNS, vessel_row)),
)  # fmt: skip
