"""A warming curve: its rise, its course with an honest range, what the model leaves over."""

from kit.statistics.curve.rise import fit_rise, independent_errors, saturating
from kit.statistics.curve.warming import begins, Warming, warming_of

__all__ = [
    "begins", "fit_rise", "independent_errors", "saturating", "Warming", "warming_of",
]  # fmt: skip
