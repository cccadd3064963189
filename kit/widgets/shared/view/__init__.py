"""A lesson's view: its grips, one question to Python at a time, and the frame that tells and draws the answer."""

from kit.widgets.shared.view.view import LOOK, Grip, Pick, View, line, rows, starting

__all__ = ["Grip", "LOOK", "Pick", "View", "line", "rows", "starting"]
