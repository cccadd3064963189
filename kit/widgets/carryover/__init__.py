"""The third look of lesson 11: what carries over from the vessel to a planet, sorted by hand."""

from kit.widgets.carryover.carryover import sorting_view

__all__ = ["sorting_view"]
