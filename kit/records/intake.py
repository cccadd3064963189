"""Reading any logger's or person's record: from the file's bytes to a `Run`, one stage after the other.

    sniff -> cells -> columns -> clock -> roles and units -> checks

Each stage takes a `Table` and gives one; `steps` yields what passes between them, so that one can stop anywhere and look.
What a stage decides it says in `remarks`; what it can't decide it asks for, by an `IntakeFault` that names the keyword.
"""

from dataclasses import dataclass
from pathlib import PurePath

from kit.faults import IntakeFault
from kit.records.asked import Asked
from kit.records.cells import read_cells
from kit.records.checks import check_readings, frame
from kit.records.clocks import read_clock
from kit.records.columns import name_columns
from kit.records.decoding import decode
from kit.records.notes import keep_notes
from kit.records.roles import name_roles
from kit.records.run import Run, Source
from kit.records.sniffing import sniff
from kit.records.sources import take

STAGES = (name_columns, keep_notes, read_clock, name_roles, check_readings)


def read_run(source, *, treated=None, control=None, room=None, gas=None, light=None, time=None, unit=None, clock=None, decimal=None):
    """A `Run` from any logger's file or hand-written table. The file is only read, never changed.

    `source` is a path. `treated`, `control`, `room`, `gas`, `light` and `time` name columns: by header, by a part of one, or by
    number from 1. `unit` ('degC', 'degF', 'K') is that of the temperatures, `clock` says how times are to be read, `decimal` is
    '.' or ','. Each is needed only where the file leaves it open: then an `IntakeFault` asks for it. Whatever was decided stands
    in `run.remarks`. Temperatures come out in °C, gas in ppm, times in seconds from the first reading.
    """
    asked = Asked(treated, control, room, gas, light, time, unit, clock, decimal)
    raw = take(source)
    *_, table = steps(raw, asked)
    return run_of(table, raw)


def steps(raw, asked):
    """Every state of a record on its way, one after each stage. Print any of them."""
    text = decode(raw)
    table = read_cells(text, sniff(text, asked.decimal))
    yield table
    for stage in STAGES:
        table = stage(table, asked)
        yield table


def run_of(table, raw):
    """The `Run` that a finished table holds."""
    about = {"name": PurePath(raw.name).stem, **(table.about or {})}
    return Run(frame(table), source=Source(raw.name, raw.sha256), remarks=table.remarks, **about)


@dataclass(frozen=True, eq=False)
class Reading:
    """How far a record was understood: its first `rows` as text, the `remarks` so far, and the open `question` (an `IntakeFault`) or the `run`."""

    rows: tuple
    remarks: tuple
    question: IntakeFault | None
    run: Run | None


def look(source, **keywords):
    """The `Reading` of a source with the keywords of `read_run`: never raises an `IntakeFault`, but keeps it as the open question."""
    table, rows, remarks = None, (), ()
    try:
        raw = take(source)
        for table in steps(raw, Asked(**keywords)):
            rows, remarks = rows or str(table).splitlines(), table.remarks
        return Reading(tuple(rows), remarks, None, run_of(table, raw))
    except IntakeFault as question:
        return Reading(tuple(rows), remarks, question, None)
