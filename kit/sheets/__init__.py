"""Sheets for teachers: what a class needs on paper, each a text of its own whose numbers are the kit's, for this class's settings."""

from kit.sheets.guide import guide_page, write_guide
from kit.sheets.sheet import sheet_page, sheet_titles, write_sheets

__all__ = ["guide_page", "sheet_page", "sheet_titles", "write_guide", "write_sheets"]
