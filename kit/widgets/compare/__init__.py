"""The view of lesson 08: two results beside each other, their difference, and a margin chosen beforehand."""

from kit.widgets.compare.compare import compare_view
from kit.widgets.compare.reference import against_reference

__all__ = ["against_reference", "compare_view"]
