"""Two results beside each other: same within a margin, different, or cannot tell."""

from kit.analysis.comparison.comparing import compare, Comparison
from kit.analysis.comparison.overlaid import overlay
from kit.analysis.comparison.parts import Parts, parts_of, ranged

__all__ = ["compare", "Comparison", "overlay", "Parts", "parts_of", "ranged"]
