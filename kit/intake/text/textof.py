"""The text of a record, whether it comes as text or as a workbook."""

from kit.intake.text.decoding import decode
from kit.intake.text.workbook import is_workbook, sheet_text


def text_of(raw):
    """The `Text` in a `Raw`: a workbook's sheet as text with tabs between cells, anything else decoded."""
    return sheet_text(raw) if is_workbook(raw.data) else decode(raw)
