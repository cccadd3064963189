"""The view of lesson 04: is it steady? The axis and the look back under the hand; and a logger to watch at ten times its speed."""

from kit.widgets.steady.replaying import replay
from kit.widgets.steady.steady import steady_view

__all__ = ["replay", "steady_view"]
