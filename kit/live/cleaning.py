"""Lines that a bad cable damaged: told from readings by what the other lines look like, and left out with word of it."""

from kit.faults import IntakeFault
from kit.intake.forms import FAILED, looks_like_measure, looks_like_number, looks_like_time, MISSING, tidied
from kit.intake.given import Text
from kit.intake.text import sniff

ENOUGH = 3  # good lines, before the others are judged by them
CONTROLS = bytes(set(range(32)) - {9, 10, 13} | {127})
WIDE = (b"\xff\xfe", b"\xfe\xff")  # marks of UTF-16, in which every second byte may be zero


def without_damaged(data):
    """(the data without damaged lines, how many there were, the first of them)."""
    if data[:2] in WIDE or data[1:2] == b"\0" or data[:1] == b"\0" and data[2:3] == b"\0":
        return data, 0, ""
    lines = data.split(b"\n")
    kept = [line for line in lines if line.translate(None, CONTROLS) == line]
    layout = layout_of(kept)
    kept = [line for line in kept if layout is None or fits(line, layout)]
    if len(kept) == len(lines):
        return data, 0, ""
    first = next(line for line in lines if line not in set(kept))
    return b"\n".join(kept), len(lines) - len(kept), first.decode("ascii", "replace")[:30]


def layout_of(lines):
    """The `TableLayout` that most lines have; None where there are too few, or where cells may hold more than one line."""
    text = b"\n".join(lines)
    if b'"' in text or len(lines) < ENOUGH:
        return None
    try:
        return sniff(Text("", text), ".")
    except IntakeFault:
        return None


def fits(line, layout):
    """Is this a line of readings, or one that is meant for people? Damaged is a line of numbers of which some are none."""
    if layout.delimiter not in ",;\t":
        return True
    cells = [tidied(cell) for cell in line.decode("utf-8", "replace").split(layout.delimiter)]
    sound = [good_cell(cell, kind) for cell, kind in zip(cells, layout.kinds)]
    if len(cells) == len(layout.kinds) and all(sound):
        return True
    return not any(looks_like_number(cell) or looks_like_time(cell) for cell in cells if cell)


def good_cell(cell, kind):
    if kind in "-x" or cell in MISSING or cell.lower() in FAILED:
        return True
    return looks_like_time(cell) if kind == "t" else looks_like_number(cell) or looks_like_measure(cell)
