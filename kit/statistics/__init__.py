"""Noise, intervals, trends, rises and pooling: arrays in, numbers with uncertainty out. Knows nothing of runs."""

from kit.statistics.curve import begins, fit_rise, independent_errors, saturating, Warming, warming_of
from kit.statistics.effect import (
    effects_of, find_break, find_breaks, PairedEffects, side_by_side, SideBySide, single_effect, SingleEffect, stacked_effects, Terms,
    vessel_changes,
)  # fmt: skip
from kit.statistics.gain import class_gain
from kit.statistics.line import fit_line, Line
from kit.statistics.pooling import plain_mean, pool, Pooled, spread_interval, spread_of_next, surprise, without_each
from kit.statistics.ranges import (
    BARE_MIN, CANNOT_TELL, coverage_factor, difference_of, DIFFERENT, drifted_range, Equivalence, equivalence, mean_parts, parts_of,
    ranged, RISK, SAME, welch_dof, welch_interval, widened_factor,
)  # fmt: skip
from kit.statistics.readings import cut, display_step, display_uncertainty, heard, lay_out, Layout, SHORTEST_CELL_S, still_stretches, within
from kit.statistics.rehearsal import rehearse, Rehearsed, Timing, Wander
from kit.statistics.steady import FEWEST_MIN, LEVEL, slopes, wait_for_steady

__all__ = [
    "BARE_MIN", "begins", "CANNOT_TELL", "class_gain", "coverage_factor", "cut", "difference_of", "DIFFERENT", "display_step", "display_uncertainty",
    "drifted_range", "effects_of", "Equivalence", "equivalence", "FEWEST_MIN", "find_break", "find_breaks", "fit_line", "fit_rise", "heard",
    "independent_errors", "lay_out", "Layout", "LEVEL", "Line", "mean_parts", "PairedEffects", "parts_of", "plain_mean", "pool", "Pooled", "ranged",
    "rehearse", "Rehearsed", "RISK", "SAME", "saturating", "SHORTEST_CELL_S", "side_by_side", "SideBySide", "single_effect", "SingleEffect", "slopes",
    "spread_interval", "spread_of_next", "stacked_effects", "still_stretches", "surprise", "Terms", "Timing", "vessel_changes", "wait_for_steady",
    "Wander", "Warming", "warming_of", "welch_dof", "welch_interval", "widened_factor", "within", "without_each",
]  # fmt: skip
