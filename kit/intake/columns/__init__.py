"""What each column is: roles, long layout, several loggers joined, notes, and the checks at the end."""

from kit.intake.columns.joining import join, join_pieces, with_file_names
from kit.intake.columns.kinds import columns_in_turn, note_column, probe_columns, refuse_one_each
from kit.intake.columns.longform import by_column, by_probe
from kit.intake.columns.notes import keep_notes
from kit.intake.columns.roles import check_readings, name_roles, without_impossible

__all__ = [
    "by_column", "by_probe", "check_readings", "columns_in_turn", "join", "join_pieces", "keep_notes", "name_roles", "note_column", "probe_columns",
    "refuse_one_each", "with_file_names", "without_impossible",
]  # fmt: skip
