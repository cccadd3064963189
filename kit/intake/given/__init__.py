"""What a record comes with (its source, the caller's keywords) and what passes between the stages of the intake."""

from kit.intake.given.naming import place_named
from kit.intake.given.source import CLOCK_IN_BRACKETS, decode, LARGEST_BYTES, MONTH_FIRST, PROMPT, Raw, read_bytes, refuse_unreadable, take, Text
from kit.intake.given.table import added, as_texts, Asked, asked_of, Column, ROLES, Table
from kit.intake.given.workbook import is_workbook, sheet_text

__all__ = [
    "added", "as_texts", "Asked", "asked_of", "CLOCK_IN_BRACKETS", "Column", "decode", "is_workbook", "LARGEST_BYTES", "MONTH_FIRST", "place_named",
    "PROMPT", "Raw", "read_bytes", "refuse_unreadable", "ROLES", "sheet_text", "Table", "take", "Text",
]  # fmt: skip
