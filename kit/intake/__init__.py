"""From a file, a pasted table or readings typed by hand to a `Run`; `read.py` tells the whole way."""

from kit.intake.byhand import doubts, read_sheet, run_of_sheet, UNITS, write_sheet
from kit.intake.text import cell_spans
from kit.intake.read import look, read_run, Reading
from kit.intake.asking import asked_further, code_for, with_answers

__all__ = [
    "asked_further", "cell_spans", "code_for", "doubts", "look", "read_run", "read_sheet", "Reading", "run_of_sheet", "UNITS", "with_answers",
    "write_sheet",
]  # fmt: skip
