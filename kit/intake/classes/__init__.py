"""A whole class's records at once, from a folder or a zip."""

from kit.intake.classes.files import members_of, RECORDS, zip_bytes, zip_files
from kit.intake.classes.folder import class_of, ClassRuns, read_class

__all__ = ["class_of", "ClassRuns", "members_of", "read_class", "RECORDS", "zip_bytes", "zip_files"]
