"""Bringing a run in: a file, a pasted table, or a sheet filled in by hand."""

from kit.widgets.intake.bringing import BringIn, bring_in
from kit.widgets.intake.handing import RunCard, code_line, file_choice, first_rows, folded, still, ticks, typing_sheet
from kit.widgets.intake.handsheet import hand_sheet
from kit.widgets.intake.oddplaces import decision, odd_blocks

__all__ = [
    "BringIn", "RunCard", "bring_in", "code_line", "decision", "file_choice", "first_rows", "folded", "hand_sheet", "odd_blocks", "still",
    "ticks", "typing_sheet",
]  # fmt: skip
