"""What a range is made of: factors, drift that stays, parts, two one-sided tests, power."""

from kit.statistics.ranges.drift import drift_set, drifted_range, early_course
from kit.statistics.ranges.independent import welch_interval
from kit.statistics.ranges.parts import BARE_MIN, difference_of, drift_between, FEWEST_AVERAGED, mean_parts, parts_of, ranged
from kit.statistics.ranges.power import chance_of_telling, half_width, seldom_more
from kit.statistics.ranges.quantiles import coverage_factor, one_sided_factor, widened_factor
from kit.statistics.ranges.twoonesided import CANNOT_TELL, DIFFERENT, Equivalence, equivalence, RISK, SAME, welch_dof

__all__ = [
    "BARE_MIN", "CANNOT_TELL", "chance_of_telling", "coverage_factor", "difference_of", "DIFFERENT", "drift_between", "drift_set",
    "drifted_range", "early_course", "Equivalence", "equivalence", "FEWEST_AVERAGED", "half_width", "mean_parts", "one_sided_factor",
    "parts_of", "ranged", "RISK", "SAME", "seldom_more", "welch_dof", "welch_interval", "widened_factor",
]  # fmt: skip
