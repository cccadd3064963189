"""Two results beside each other: same within a margin, different, or cannot tell."""

from kit.analysis.comparison.comparing import compare, Comparison
from kit.analysis.comparison.numbers import number_of
from kit.analysis.comparison.overlaid import overlay

__all__ = ["compare", "Comparison", "number_of", "overlay"]
