"""Reading any logger's or person's record: from the file's bytes to a `Run`, one stage after the other.

    decode -> sniff -> cells -> notes -> (probes) -> clock -> (join) -> roles and units -> checks

Each stage takes a `Table` and gives one; `steps` yields what passes between them, so that one can stop anywhere and look.
What a stage decides it says in `remarks`; what it can't decide it asks for, by an `IntakeFault` that names the keyword.
"""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from hashlib import sha256
from pathlib import PurePath

import pandas as pd

from kit.faults import IntakeFault
from kit.intake.columns import (
    by_column,
    by_probe,
    check_readings,
    columns_in_turn,
    join,
    join_pieces,
    keep_notes,
    name_roles,
    note_column,
    probe_columns,
    refuse_one_each,
    with_file_names,
    without_impossible,
)
from kit.intake.asking import with_all_questions
from kit.intake.given import Asked, asked_of, decode, is_workbook, sheet_text, Table, take
from kit.intake.text import as_table, read_cells, sniff, with_whole_stamps, without_prompts
from kit.intake.time import read_clock
from kit.records import COLUMNS, Run, Source


DAY_MIN = 1440


def read_run(source, *, treated=None, control=None, room=None, gas=None, light=None, time=None, unit=None, clock=None, decimal=None, sheet=None):
    """A `Run` from any logger's file or hand-written table. The file is only read, never changed.

    `source` is a path, a list of paths (one a logger), or a table as a text of several lines; `sheet` names a workbook's sheet, as
    'book.xlsx#Sheet 2' does. `treated`, `control`, `room`, `gas`, `light` and `time` name columns: by header, by a part of one, or by
    number from 1. `unit` is that of temperatures whose unit the file does not tell: 'degC', 'degF', 'K' or 'mdegC' (thousandths of °C), or one
    for each role in a dict, {'treated': 'degC', 'gas': '%'}. `decimal` is '.' or ','. `clock`, one word or a list, says how times are meant:
    's', 'min', 'h', '10 s' (each count), 'mm:ss', 'h:mm', 'day first', 'month first', 'year first', 'summer time', 'sorted', 'set back';
    for several loggers 'as written', 'shared event', or the seconds that each further clock is ahead of the first.

    Each keyword is needed only where the file leaves something open: then an `IntakeFault` asks for all that is open at once. Whatever was decided stands
    in `run.remarks`. Temperatures come out in °C, gas in ppm, times in seconds from the first reading.
    """
    raws, asked = taken(source), Asked(treated, control, room, gas, light, time, unit, clock, decimal, sheet)
    try:
        return whole(raws, asked)
    except IntakeFault as fault:
        raise with_all_questions(fault, lambda answers: whole(raws, asked.answering(answers))) from None


def whole(raws, asked):
    """The `Run` of some files. The hash of a large file is worked out beside what keeps one processor busy."""
    states = steps(list(raws), asked)
    table = next(states)
    with ThreadPoolExecutor(1) as pool:
        origin = pool.submit(origin_of, raws)
        for table in states:
            pass  # only the last state counts; a list of them all would fill the memory
        return run_of(table, origin.result())


def taken(source):
    """The bytes of each file of a source, as a list of `Raw`."""
    sources = source if isinstance(source, (list, tuple)) else [source]
    if not sources:
        raise IntakeFault("No file was named.", "Name the files of all loggers: read_run(['left.csv', 'right.csv']).")
    return [take(each) for each in sources]


def steps(raws, asked):
    """Every state of a record on its way, one after each stage. Print any of them. Takes the files out of `raws` as it reads them."""
    tables = []
    for place in range(len(raws)):
        for table in single(raws, asked.of_file(place)):
            yield table
        tables.append(table)
    refuse_lone_offset(tables, asked)
    if len(tables) > 1:
        table = join(with_file_names(tables), asked)
        yield table
    for stage in (name_roles, check_readings):
        table = stage(table, asked)
        yield table


def refuse_lone_offset(tables, asked):
    if len(tables) == 1 and asked.clock_numbers:
        what = f"clock={asked.clock_numbers[0]:g} says how far a second clock is ahead, but there is one file."
        raise tables[0].fault(what, "Name both files in a list, or say what clock= means in words.", keyword="clock")


def single(raws, asked):
    """The states of the next file, up to its clock."""
    table = cells_of(raws.pop(0), asked)
    yield table
    notes = note_column(table)
    if notes is not None:
        table = keep_notes(table, notes)
        yield table
    probes = probe_columns(table)
    turns = () if probes else columns_in_turn(table)
    if probes or turns:
        pieces = by_probe(table, probes) if probes else by_column(table, turns)
        yield join_pieces([readings_of(piece, asked) for piece in pieces])
    else:
        refuse_one_each(table)
        yield readings_of(table, asked)


def readings_of(table, asked):
    return without_impossible(read_clock(table, asked), asked)


def cells_of(raw, asked):
    """The first state of a file: its cells. Its bytes and text end here, so that a large file does not fill the memory twice."""
    raw = replace(raw, sheet=asked.sheet) if raw.sheet is None and asked.sheet is not None else raw
    text = sheet_text(raw) if raw.zipped and is_workbook(raw.data) else decode(raw)
    text = as_table(text) if text.labelled else without_prompts(text) if text.prompted else with_whole_stamps(text) if text.month_first else text
    return read_cells(text, sniff(text, asked.decimal))


def origin_of(raws):
    """The `Source` of a run: of several files, all names, and the SHA-256 of their SHA-256 in hexadecimal, one after the other."""
    digest = raws[0].sha256 if len(raws) == 1 else sha256("".join(raw.sha256 for raw in raws).encode()).hexdigest()
    return Source(" + ".join(raw.name for raw in raws), digest)


def frame(table):
    """The readings of a finished table, as a `Run` holds them."""
    held = {column.role: column.values for column in table.columns}
    index = pd.Index(held["time"], name="elapsed_s", dtype=float)
    return pd.DataFrame({name: held[name] for name in COLUMNS if name in held}, index=index, copy=False)


def run_of(table, origin):
    """The `Run` that a finished table holds."""
    name = " + ".join(PurePath(part).stem for part in origin.name.split(" + "))
    told = {"name": name, "clock_min": clock_min(table), **(table.about or {})}
    return Run(frame(table), source=origin, remarks=table.remarks, **told)


def clock_min(table):
    """Minutes after midnight at the first reading; None where no clock shows them. One that begins at 0:00:00 counts from the run's own start."""
    return table.start_s / 60 % DAY_MIN or None if table.wall_clock else None


@dataclass(frozen=True, eq=False)
class Reading:
    """How far a record was understood: its first `rows` as text, the last `table` it became (None if none), the `question` or the `run`.

    `question` is an `IntakeFault` with all that is open at once. Exactly one of `question` and `run` is None.
    """

    rows: tuple
    table: Table | None
    question: IntakeFault | None
    run: Run | None

    @property
    def questions(self):
        """All that is open at once, a tuple of `Question`; empty if nothing is, or if no choice would settle it."""
        return self.question.questions if self.question else ()

    @property
    def remarks(self):
        """What was decided so far, a sentence each."""
        return self.table.remarks if self.table else ()


def look(source, **keywords):
    """The `Reading` of a source with the keywords of `read_run`. It keeps an `IntakeFault` as the open question instead of raising it."""
    rows, table, asked = (), None, asked_of(keywords)
    try:
        raws = taken(source)
        origin = origin_of(raws)
        for table in steps(list(raws), asked):
            rows = rows or tuple(str(table).splitlines())
        return Reading(rows, table, None, run_of(table, origin))
    except IntakeFault as question:
        if question.questions:
            question = with_all_questions(question, lambda answers: whole(raws, asked.answering(answers)))
        return Reading(rows, table, question, None)
