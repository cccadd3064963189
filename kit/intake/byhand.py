"""A run read by eye and typed in: its file, kept as typed, and a question for every entry that is likely a slip."""

import csv
import io
from dataclasses import dataclass
from pathlib import Path

from kit.faults import Fault
from kit.intake.read import read_run
from kit.intake.forms import STRICT, tidied
from kit.storage import write_atomically

VESSELS = ("treated", "control")
UNITS = {"degC": "°C", "degF": "°F"}
SCALE = {"degC": (1.0, 0.0), "degF": (1.8, 32.0)}
LIKELY_C = (-5.0, 75.0)  # what a thermometer under a lamp shows: common practice, no source
LEAP_C, SPIKE_C = 8.0, 3.0  # from one minute to the next, and away from both neighbours: common practice, no source
FORMULA = ("=", "+", "-", "@")


@dataclass(frozen=True)
class Doubt:
    """One question about the cell in `row` and `column` (0 minute, 1 treated, 2 control). A `blocking` one has to be answered first."""

    row: int
    column: int
    text: str
    blocking: bool = False

    def __str__(self):
        return self.text


def read_sheet(path, unit="degC"):
    """The rows of a sheet, (minute, treated, control) as texts; none if there is no file. A Fault if the file holds something else."""
    try:
        head, *rows = list(csv.reader(io.StringIO(Path(path).read_text(encoding="utf-8")))) or [[]]
    except FileNotFoundError:
        return []
    except (OSError, UnicodeDecodeError, csv.Error):
        head, rows = None, []
    if head != header(unit) or any(len(row) != len(head) for row in rows):
        raise Fault(f"{Path(path).name} is there already and is no hand sheet in {UNITS[unit]}. Give the sheet another name.")
    return [tuple(row) for row in rows]


def write_sheet(path, rows, unit="degC"):
    """Keep the rows as a CSV file, whole or not at all; empty ones at the end are left out. A Fault when the disk refuses."""
    written = io.StringIO(newline="")
    writer = csv.writer(written, lineterminator="\n")
    writer.writerow(header(unit))
    writer.writerows([plain(cell) for cell in row] for row in filled(rows))
    try:
        write_atomically(path, written.getvalue())
    except OSError as problem:
        what = f"{Path(path).name} could not be written ({problem.strerror})."
        raise Fault(f"{what} Make room there, then change the entry once.") from problem


def header(unit):
    return ["elapsed_min", *(f"{vessel}_{unit}" for vessel in VESSELS)]


def plain(cell):
    """A cell as the file keeps it: a number with a point, anything else as typed, but never a formula for a spreadsheet."""
    value = number(cell)
    if value is not None:
        return tidied(cell).replace(",", ".")
    return f"'{cell}" if cell.lstrip().startswith(FORMULA) else cell


def filled(rows):
    """The rows up to the last one with a reading."""
    rows = list(rows)
    while rows and not any(cell.strip() for cell in rows[-1][1:]):
        rows.pop()
    return rows


def number(cell):
    """The number in a typed cell, with a decimal point or comma; None if it holds none."""
    cell = tidied(cell)
    return float(cell.replace(",", ".")) if any(form.fullmatch(cell) for form in STRICT.values()) else None


def run_of_sheet(path, unit="degC"):
    """The `Run` of a sheet. A Fault for its first entry that has to be put right."""
    for doubt in doubts(read_sheet(path, unit), unit):
        if doubt.blocking:
            raise Fault(doubt.text)
    return read_run(path)


def doubts(rows, unit="degC"):
    """A `Doubt` for each entry that is no number, out of order, or unlikely; in order of the rows."""
    rows = filled(rows)
    found = [*_of_minutes(rows), *(each for column in (1, 2) for each in _of_readings(rows, column, unit))]
    return sorted(found, key=lambda each: (each.row, each.column))


def _of_minutes(rows):
    last = None
    for place, (minute, *_) in enumerate(rows):
        value = number(minute)
        if value is None:
            what = f"Row {place + 1}: '{minute[:20]}' is no minute. Type the minute of this reading as a number."
            yield Doubt(place, 0, what, blocking=True)
        elif last is not None and value <= last:
            yield Doubt(place, 0, f"Row {place + 1}: minute {value:g} comes after minute {last:g}. Times must run forward.", blocking=True)
        last = value if value is not None else last


def _of_readings(rows, column, unit):
    factor, zero = SCALE[unit]
    typed = [(place, row[column]) for place, row in enumerate(rows) if row[column].strip()]
    known = [(place, number(cell)) for place, cell in typed if number(cell) is not None]
    celsius = {place: (value - zero) / factor for place, value in known}
    usual = {place: value for place, value in celsius.items() if LIKELY_C[0] <= value <= LIKELY_C[1]}
    for place, cell in typed:
        if number(cell) is None:
            yield _doubt(rows, place, column, f"'{cell[:20]}' is no number. Type it again.", blocking=True)
    for place, value in known:
        why = _why_unlikely(place, usual) if place in usual else "is unusual under a lamp."
        if why:
            yield _doubt(rows, place, column, f"{value:g} {UNITS[unit]} {why} Is it a slip? If not, leave it: it counts.")


def _doubt(rows, place, column, words, blocking=False):
    return Doubt(place, column, f"Minute {rows[place][0].strip() or '?'}, {VESSELS[column - 1]}: {words}", blocking)


def _why_unlikely(place, usual):
    """Why a reading among the `usual` ones ({row: °C}) is doubted: it stands apart from both beside it, or leaps from the one before."""
    before, after = max((each for each in usual if each < place), default=None), min((each for each in usual if each > place), default=None)
    up, down = (None if other is None else usual[place] - usual[other] for other in (before, after))
    if up is not None and down is not None and up * down > 0 and min(abs(up), abs(down)) > SPIKE_C:
        return f"is far {'above' if up > 0 else 'below'} both readings beside it."
    return "is a leap from the reading before." if up is not None and abs(up) > LEAP_C else ""
