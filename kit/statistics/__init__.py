"""Noise, intervals, trends, rises and pooling: arrays in, numbers with uncertainty out. Knows nothing of runs."""

from kit.statistics.breaks import find_break, find_breaks
from kit.statistics.cells import cut, SHORTEST_CELL_S, within
from kit.statistics.display import display_step, display_uncertainty
from kit.statistics.drift import drifted_range
from kit.statistics.independent import welch_interval
from kit.statistics.leaving import without_each
from kit.statistics.line import fit_line, Line
from kit.statistics.layout import heard, lay_out, Layout
from kit.statistics.paired import effects_of, PairedEffects, Terms
from kit.statistics.parts import BARE_MIN, difference_of, mean_parts, parts_of, ranged
from kit.statistics.pooling import plain_mean, pool, Pooled, spread_interval, spread_of_next, surprise
from kit.statistics.quantiles import coverage_factor, widened_factor
from kit.statistics.rehearsal import rehearse, Rehearsed, Timing, Wander
from kit.statistics.rise import fit_rise, independent_errors, saturating
from kit.statistics.sidebyside import side_by_side, SideBySide
from kit.statistics.single import single_effect, SingleEffect
from kit.statistics.stacked import stacked_effects
from kit.statistics.stuck import still_stretches
from kit.statistics.steady import FEWEST_MIN, LEVEL, slopes, wait_for_steady
from kit.statistics.twoonesided import CANNOT_TELL, DIFFERENT, Equivalence, equivalence, RISK, SAME, welch_dof
from kit.statistics.vessels import vessel_changes
from kit.statistics.warming import begins, Warming, warming_of

__all__ = [
    "BARE_MIN", "begins", "CANNOT_TELL", "coverage_factor", "cut", "difference_of", "DIFFERENT", "display_step", "display_uncertainty",
    "drifted_range", "effects_of", "equivalence", "Equivalence", "FEWEST_MIN", "find_break", "find_breaks", "fit_line", "fit_rise",
    "heard", "independent_errors", "lay_out", "Layout", "LEVEL", "Line", "mean_parts", "PairedEffects", "parts_of", "plain_mean", "pool",
    "Pooled", "Terms", "ranged", "rehearse", "Rehearsed", "RISK", "SAME", "saturating", "SHORTEST_CELL_S", "side_by_side", "SideBySide",
    "single_effect", "SingleEffect", "slopes", "spread_interval", "spread_of_next", "stacked_effects", "still_stretches", "surprise",
    "Timing", "vessel_changes", "wait_for_steady", "Wander", "Warming", "warming_of", "welch_dof", "welch_interval", "widened_factor",
    "within", "without_each",
]  # fmt: skip
