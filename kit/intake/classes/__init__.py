"""A whole class's records at once, from a folder or a zip."""

from kit.intake.classes.folder import ClassRuns, read_class

__all__ = ["ClassRuns", "read_class"]
