"""The second view of lesson 10: two vessels cut open, air in one and a heavy gas in the other, and what changes places at their mouths."""

from kit.widgets.inside.inside import inside_view

__all__ = ["inside_view"]
