"""The paired effect of one run, looked at more closely than thousands can be: with and without a jump that no warming makes."""

from dataclasses import dataclass

import numpy as np

from kit.statistics.effect.jumps import find_jump, Jump
from kit.statistics.effect.paired import display_steps, judged, noises, PairedEffects, Seen
from kit.statistics.readings import lay_out, within

# A jump so near before the change, or so soon after it, is in the baseline or in what the trend takes for its level.
NEAR_BEFORE_S, NEAR_AFTER_S = 180.0, 90.0
ANOTHER_BASELINE_S, CLEAR_S = 60.0, 15.0


@dataclass(frozen=True, eq=False)
class SingleEffect:
    """`found`: the `PairedEffects` of the run, with a jump among the terms of its trend; `seen`: its noise. `low`, `high` (°C): the range,
    over all that a `jump` (None: there is none) may have done. `without`: the range without it, (low, high). `lost`: a jump lies in the
    baseline and nothing before it could stand for one, so that there is no number. `level` of the ranges."""

    found: PairedEffects
    seen: Seen
    low: float
    high: float
    jump: Jump | None = None
    without: tuple | None = None
    lost: bool = False
    level: float = 0.95


def single_effect(layout, seconds, vessels, edges_s, question):
    """The `SingleEffect` of `vessels` (2, readings) at `seconds` with windows at `edges_s`, laid out by `lay_out`."""
    pair = vessels[:1], vessels[1:]
    difference = vessels[0] - vessels[1]
    values = layout.cells.means(difference)[:, None]
    seen = noises(layout, values)
    steps = display_steps(*vessels) if question.resolution_c is None else (question.resolution_c,)
    jump = find_jump(layout, difference, seen[0], float(np.max(steps)))
    if jump is None:
        found = judged(layout, pair, seen, question)
        return SingleEffect(found, seen[0], *_range(found), level=question.level)
    seen = noises(layout, values, jump.shape)
    found = judged(layout, pair, seen, question)
    low, high = _range(found)
    without = low - jump.moved[1], high - jump.moved[0]
    ranges, lost = [(low, high), without], False
    if _in_the_baseline(jump, layout.change_s):
        other = _another_baseline(jump, seconds, vessels, edges_s, question)
        ranges, lost = [*ranges, *([other] if other else [])], other is None
    lows, highs = zip(*ranges)
    return SingleEffect(found, seen[0], min(lows), max(highs), jump, without, lost, question.level)


def _range(found):
    return float(found.low[0]), float(found.high[0])


def _in_the_baseline(jump, change_s):
    length = jump.length_s if np.isfinite(jump.length_s) else 0.0
    return change_s - NEAR_BEFORE_S - length < jump.at_s <= change_s + NEAR_AFTER_S


def _another_baseline(jump, seconds, vessels, edges_s, question):
    """The range (low, high) with the minute before the jump as baseline; None where there is no such minute."""
    end_s = min(jump.at_s - CLEAR_S, edges_s[2])
    start_s = end_s - ANOTHER_BASELINE_S
    first, last = within(seconds, start_s, end_s)
    if start_s < seconds[0] - CLEAR_S or last == first:
        return None
    edges = (start_s, end_s, *edges_s[2:])
    layout = lay_out(seconds, edges)
    shape = jump.on(layout.cells.times_s)
    seen = noises(layout, layout.cells.means(vessels[0] - vessels[1])[:, None], shape if np.ptp(shape) else None)
    return _range(judged(layout, (vessels[:1], vessels[1:]), seen, question))
