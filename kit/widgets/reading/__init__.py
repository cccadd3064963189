"""The view of lesson 05: a file's lines beside what was read, what it leaves open under the hand, and the effect that comes out."""

from kit.widgets.reading.reading import reading_view

__all__ = ["reading_view"]
