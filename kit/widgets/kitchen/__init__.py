"""The view of the lesson for the kitchen: one's own glass in warm water, when to read it and how much to expect."""

from kit.widgets.kitchen.kitchen import glass_view

__all__ = ["glass_view"]
