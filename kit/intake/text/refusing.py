"""Why a text is refused: no line of it looks like readings, a line is too long, or its header doesn't fit them."""

from kit.faults import IntakeFault
from kit.intake.forms import looks_like_number, looks_like_time, tidied
from kit.intake.text.splitting import DELIMITERS

EMPTY = "This file is empty.", "Export the run again, and look into the file before you close the logger."
ONE_COLUMN = "There is only one column here.", "A run needs a time and two temperatures in each line, and a header above them."
HEADER_ONLY = "There is a header, and no reading below it.", "Was the logger started? Export the run again."
NO_READINGS = "No line here looks like readings.", "Export the run as a table: in each line a time and two temperatures, a header above."
LABELLED = (
    "These lines name their values (T1: 21.4), but not all the same ones: that is no table.",
    "Let the logger write the numbers alone, with commas between.",
)
BOTH = "Is a comma both decimal mark and delimiter? Export with semicolons, or correct it in a copy."


def other_width(file, header, width):
    """The fault for a last line above the readings that names columns, but not as many as there are."""
    return IntakeFault(f"This header has {len(header.cells)} cells, the lines below {width}.", BOTH, file=file, line=header.line)


def too_long(file, line, most):
    return IntakeFault(f"This line has more than {most:,} signs; no line of readings has so many.", NO_READINGS[1], file=file, line=line)


def too_many(file, line, cells, most):
    return IntakeFault(f"A line has {cells} cells; at most {most} are read.", "Keep the columns of one run in a copy.", file=file, line=line)


def no_table(text, lines):
    """The fault for a text in which no line looks like readings."""
    file = text.file
    filled = {number: tidied(line) for number, line in enumerate(lines, 1) if line.strip()}
    if not filled:
        return IntakeFault(*EMPTY, file=file)
    if text.labelled or text.headers:
        return IntakeFault(*LABELLED, file=file, line=min(filled))
    if any(looks_like_number(line) or looks_like_time(line) for line in filled.values()):
        return IntakeFault(*ONE_COLUMN, file=file, line=1)
    last = max(filled)
    if any(delimiter in filled[last] for delimiter in DELIMITERS):
        return IntakeFault(*HEADER_ONLY, file=file, line=last)
    return IntakeFault(*NO_READINGS, file=file, line=1)
