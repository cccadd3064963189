"""How a number may be written: decimal mark, thousands mark, sign, and the marks for a missing one."""

import re
from math import isfinite

from kit.faults import IntakeFault
from kit.intake.forms.units import unit_of

# Marks for 'no reading' that say nothing more. Common practice, no source.
MISSING = ("", "NA", "N/A", "n/a", "na", "NaN", "nan", "NAN", "null", "NULL", "Null", "None", "-", "--", "---", "#N/A", "?")
# Words by which a logger says that the sensor gave nothing. Common practice, no source.
FAILED = {
    "err",
    "error",
    "fault",
    "fail",
    "failed",
    "open",
    "ol",
    "over",
    "overload",
    "short",
    "invalid",
    "inf",
    "infinity",
    "#value!",
    "#div/0!",
    "#ref!",
    "...",
}
LOOSE = re.compile(r"[+-]?(?:\d+(?:[.,' ]\d+)*[.,]?|[.,]\d+)(?:[eE][+-]?\d{1,3})?", re.ASCII)
STRICT = {
    ".": re.compile(r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d{1,3})?", re.ASCII),
    ",": re.compile(r"[+-]?(?:\d+(?:,\d*)?|,\d+)(?:[eE][+-]?\d{1,3})?", re.ASCII),
}
GROUPED = {
    ".": re.compile(r"[+-]?\d{1,3}(?:([,' ])\d{3})(?:\1\d{3})*(?:\.\d*)?", re.ASCII),
    ",": re.compile(r"[+-]?\d{1,3}(?:([.' ])\d{3})(?:\1\d{3})*(?:,\d*)?", re.ASCII),
}
EITHER = re.compile(r"[+-]?\d{1,3}([.,])\d{3}", re.ASCII)
LEADING_ZERO = re.compile(r"[+-]?0[.,]\d+", re.ASCII)
SPACES = str.maketrans({"\u00a0": " ", "\u202f": " ", "\u2009": " ", "\u2212": "-", "\u2019": "'"})


def tidied(cell):
    """A cell without blanks around it; typographic spaces, minus and apostrophe as the plain ones."""
    return cell.translate(SPACES).strip(" \t") if not cell.isascii() else cell.strip(" \t")


def looks_like_number(cell):
    """Could this be a number under one decimal mark or the other?"""
    return LOOSE.fullmatch(cell) is not None


def number(cell, decimal):
    """The number in a tidied `cell` with the decimal mark '.' or ','; None if it holds none."""
    if STRICT[decimal].fullmatch(cell):
        value = float(cell.replace(",", "."))
        return value if isfinite(value) else None
    return grouped(cell, decimal)


def grouped(cell, decimal):
    """The number in a cell with marks between thousands, 1204.5 for '1.204,5' where the decimal mark is ','; else None."""
    if not GROUPED[decimal].fullmatch(cell):
        return None
    value = float(cell.translate(dict.fromkeys(map(ord, "' ,.".replace(decimal, "")))).replace(",", "."))
    return value if isfinite(value) else None


MEASURE = re.compile(r"([+-]?[\d.,' ]*\d[.,]?) ?([^\d\s.,'+-].{0,11})", re.DOTALL)


def measure(cell, decimal):
    """(number, unit) of a tidied cell like '21,4 °C'; None where no known unit follows a number."""
    match = MEASURE.fullmatch(cell)
    unit = unit_of(match[2]) if match else ""
    value = number(match[1].strip(), decimal) if unit else None
    return None if value is None else (value, unit)


def looks_like_measure(cell):
    """Is this a number with a known unit behind it, under either decimal mark?"""
    return any(measure(cell, mark) for mark in STRICT)


def decimal_mark(cells, asked, file):
    """The decimal mark of a file from its number `cells`, (line, text) pairs: '.' or ','. A fault if they leave it open."""
    if asked is not None:
        return refuse_mark(asked)
    votes = {}
    for line, cell in cells:
        votes.setdefault(vote(cell), (line, cell))
    if "." in votes and "," in votes:
        (line, cell), (other, second) = votes[","], votes["."]
        what = f"'{cell}' has a decimal comma, but '{second}' in line {other} a decimal point."
        raise IntakeFault(what, "Write them alike in a copy of the file.", file=file, line=line, seen=cell)
    if "," in votes or "." in votes:
        return "," if "," in votes else "."
    if "either ," in votes:
        line, cell = votes["either ,"]
        what = f"'{cell}' could be {cell.replace(',', '.')} or {cell.replace(',', '')}."
        raise IntakeFault(
            what, "Say which mark goes before the decimals: decimal=',' or decimal='.'.", file=file, line=line, seen=cell, keyword="decimal"
        )
    return "."


def refuse_mark(asked):
    if not isinstance(asked, str) or asked not in STRICT:
        raise IntakeFault(f"A decimal mark can't be {str(asked)[:20]!r}.", "Say decimal=',' or decimal='.'.", keyword="decimal")
    return asked


def vote(cell):
    """What one cell says about the decimal mark: '.', ',', 'either .', 'either ,' or nothing."""
    with_unit = MEASURE.fullmatch(cell)
    cell = with_unit[1] if with_unit else cell
    points, commas = cell.count("."), cell.count(",")
    if points and commas:
        return "." if cell.rfind(".") > cell.rfind(",") else ","
    mark, count = (".", points) if points else (",", commas)
    if count > 1:
        return "," if mark == "." else "."
    open_case = EITHER.fullmatch(cell) and not LEADING_ZERO.fullmatch(cell)
    return (f"either {mark}" if open_case else mark) if count else None
