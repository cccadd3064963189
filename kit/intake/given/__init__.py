"""What a record comes with (its source, the caller's keywords) and what passes between the stages of the intake."""

from kit.intake.given.asked import Asked, place_named, ROLES
from kit.intake.given.sources import LARGEST_BYTES, Raw, read_bytes, refuse_unreadable, take
from kit.intake.given.table import as_texts, Column, Table

__all__ = [
    "as_texts", "Asked", "Column", "LARGEST_BYTES", "place_named", "Raw", "read_bytes", "refuse_unreadable", "ROLES", "Table", "take",
]  # fmt: skip
