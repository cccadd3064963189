"""The window marker: three windows dragged over a run, and the number that follows."""

from kit.widgets.marker.marker import WindowMarker, mark_windows, starting_windows

__all__ = ["WindowMarker", "mark_windows", "starting_windows"]
