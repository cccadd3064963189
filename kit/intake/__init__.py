"""From a file, a pasted table or readings typed by hand to a `Run`; `read.py` tells the whole way."""

from kit.intake.byhand import doubts, read_sheet, run_of_sheet, UNITS, write_sheet
from kit.intake.read import look, read_run, Reading
from kit.intake.understanding import answers_to, code_for, open_keyword, settled_in_words, with_answer, with_sheet

__all__ = [
    "answers_to", "code_for", "doubts", "look", "open_keyword", "read_run", "read_sheet", "Reading", "run_of_sheet", "settled_in_words",
    "UNITS", "with_answer", "with_sheet", "write_sheet",
]  # fmt: skip
