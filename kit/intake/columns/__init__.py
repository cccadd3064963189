"""What each column is: roles, long layout, several loggers joined, notes, and the checks at the end."""

from kit.intake.columns.checks import check_readings, frame, without_impossible
from kit.intake.columns.joining import join, join_pieces, with_file_names
from kit.intake.columns.longform import by_probe
from kit.intake.columns.notes import keep_notes
from kit.intake.columns.roles import name_roles

__all__ = [
    "by_probe", "check_readings", "frame", "join", "join_pieces", "keep_notes", "name_roles", "with_file_names", "without_impossible",
]  # fmt: skip
