"""The second view of lesson 06: what makes a range wide, as bars to pull down."""

from kit.widgets.budget.budget import budget_view

__all__ = ["budget_view"]
