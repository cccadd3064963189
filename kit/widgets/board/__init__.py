"""The view of lesson 09: a whole class on one board, who counts in it, and how far off all of them may be together."""

from kit.widgets.board.board import board_view
from kit.widgets.board.choosing import choose_class

__all__ = ["board_view", "choose_class"]
