"""The view of lesson 06: a hundred repeats of one run, each with its range, over a truth that is open for once."""

from kit.widgets.repeats.repeats import repeats_view

__all__ = ["repeats_view"]
