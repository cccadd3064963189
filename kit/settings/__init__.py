"""What a teacher sets for the class in `class-settings.toml`: what may stand there, reading it, and writing it with its comments."""

from kit.settings.lines import Item, LINES, NAME, TABLES
from kit.settings.reading import class_settings, OURS, or_class, problems_with, Settings, settings_from
from kit.settings.writing import settings_text

__all__ = ["class_settings", "Item", "LINES", "NAME", "or_class", "OURS", "problems_with", "Settings", "settings_from", "settings_text", "TABLES"]
