"""The view of lesson 07: a curve laid by hand, and what a record can know of it as its end is dragged."""

from kit.widgets.rising.rising import rising_view

__all__ = ["rising_view"]
