"""Workbooks, written by openpyxl."""

import io
import sys
import time as clock
import zipfile
from datetime import datetime, time, timedelta

import pytest
from openpyxl import Workbook

from kit.faults import IntakeFault
from kit.intake.given import workbook
from kit.intake.read import look, read_run
from kit.intake.given.source import Raw

HEAD = ["Time", "Treated (°C)", "Control (°C)"]
TEN = datetime(2026, 3, 1, 10, 0, 0)


def book(**sheets):
    """The bytes of a workbook with these sheets, each a list of rows."""
    made = Workbook()
    made.remove(made.active)
    for title, rows in sheets.items():
        sheet = made.create_sheet(title.replace("_", " "))
        for row in rows:
            sheet.append(row)
    stream = io.BytesIO()
    made.save(stream)
    return stream.getvalue()


def rows(times):
    return [["made up for this test"], HEAD, *([moment, 21 + n / 10, None if n == 2 else 21.5] for n, moment in enumerate(times))]


@pytest.mark.parametrize(
    "times, words",
    [
        ([TEN + timedelta(seconds=2 * n) for n in range(6)], {}),
        ([time(10, 0, 2 * n) for n in range(6)], {}),
        ([TEN + timedelta(seconds=2 * n, milliseconds=250) for n in range(6)], {}),
        ([timedelta(seconds=2 * n) for n in range(6)], {}),
        ([2 * n for n in range(6)], {"clock": "s"}),
        ([46082.5 + n / 43200 for n in range(6)], {}),
        ([f"10:00:{2 * n:02d} AM" for n in range(6)], {}),
    ],
)
def test_times_of_every_kind_a_sheet_knows(times, words):
    run = look(Raw("run.xlsx", book(Run=rows(times))), **words).run
    assert run.readings.index.tolist() == [0, 2, 4, 6, 8, 10]
    assert run.readings.treated.tolist() == [21 + n / 10 for n in range(6)]
    assert run.remarks[0] == "Read sheet 'Run' of the workbook; the readings begin in row 3."
    assert run.remarks[-1] == "control: 1 of 6 readings is missing."


def test_of_several_sheets_the_one_with_readings_is_read_or_asked_for(tmp_path):
    times = [2 * n for n in range(6)]
    one, two = book(Info=[["a", "b"]], Run_1=rows(times)), book(Run_1=rows(times), Run_2=rows(times[:3]))
    assert len(look(Raw("one.xlsx", one), clock="s").run.readings) == 6
    (tmp_path / "two.xlsx").write_bytes(two)
    assert (
        str(look(tmp_path / "two.xlsx").question)
        == "two.xlsx: Which sheet holds the run? Say sheet='Run 1' or sheet='Run 2'. These times are numbers without a unit. "
        "Say clock='s', clock='min', clock='h', clock='ms' or clock='d'. One call settles all, for example: read_run(…, sheet='Run 1', clock='s')."
    )
    assert len(read_run(tmp_path / "two.xlsx", sheet="Run 2", clock="s").readings) == 3
    assert len(read_run(f"{tmp_path}/two.xlsx#Run 2", clock="s").readings) == 3


def test_faults_name_the_row():
    changed = rows([2 * n for n in range(6)])
    changed[5][1] = "abc"
    assert str(look(Raw("run.xlsx", book(Run=changed)), clock="s").question) == (
        "run.xlsx, line 6, column 'Treated (°C)': 'abc' is no number. Correct it in a copy of the file, or leave the cell empty there."
    )


DAMAGED = "run.xlsx: This workbook is damaged, or protected by a password. Open it in a spreadsheet and save it as CSV."


@pytest.mark.parametrize(
    "raw, message",
    [
        (
            Raw("run.xlsx", book(Info=[["a"]])),
            "run.xlsx: No sheet of this workbook holds readings. Was it saved before the run was pasted in?",
        ),
        (Raw("run.xlsx", book(Run=rows([1, 2])), "Lauf"), "run.xlsx: There is no sheet 'Lauf' here. Say sheet='Run'."),
        (Raw("run.xlsx", book(Run=rows([1, 2]))[:-200] + b"xl/workbook.xml"), DAMAGED),
    ],
)
def test_what_is_refused(raw, message):
    assert str(look(raw).question) == message


def test_without_openpyxl_the_command_is_told(monkeypatch):
    monkeypatch.setitem(sys.modules, "openpyxl", None)
    assert str(look(Raw("run.xlsx", book(Run=rows([1, 2])))).question) == (
        "run.xlsx: Reading workbooks needs the package openpyxl. "
        "It belongs to the kit: stop, and start again with python3 -m kit lab. Or save the sheet as CSV."
    )


def test_a_workbook_made_to_fill_the_memory_is_refused_unopened(monkeypatch):
    monkeypatch.setattr(workbook, "MOST_BYTES", 1 << 20)
    stream = io.BytesIO(book(Run=rows([1, 2])))
    with zipfile.ZipFile(stream, "a", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/worksheets/sheet9.xml", b" " * (3 << 20))
    assert str(look(Raw("run.xlsx", stream.getvalue())).question) == (
        "run.xlsx: A sheet of this workbook unpacks to 3 MiB; at most 1 are read. Save the sheet with the run as CSV."
    )


def changed(part, old, new):
    """A workbook with `new` in the place of `old` in one of its parts."""
    stream, whole = io.BytesIO(), book(Run=rows([1, 2, 3]))
    with zipfile.ZipFile(io.BytesIO(whole)) as source, zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as target:
        for name in source.namelist():
            data = source.read(name)
            assert name != part or old in data
            target.writestr(name, data.replace(old, new) if name == part else data)
    return Raw("run.xlsx", stream.getvalue())


SHEET, END = "xl/worksheets/sheet1.xml", b"</sheetData>"
SWOLLEN = [
    ("xl/styles.xml", b"</cellXfs>", b"<xf/>" * 15_000_000, "What goes with its sheets unpacks to 72 MiB; at most 16 are read."),
    ("xl/styles.xml", b"</cellXfs>", b"<xf/>" * 3_000_000, "This workbook has more than 400,000 styles, texts and the like."),
    (SHEET, END, b"<row/>" * 9_000_000, "A sheet of this workbook has more cells than can be read in half a minute."),
    (SHEET, END, b"<row>" + b"<c/>" * 3_000_000 + b"</row>", "A row or a cell of this workbook is larger than any can be."),
    (SHEET, END, b'<row><c t="inlineStr"><is><t>' + b"x" * 90_000_000 + b"</t></is></c></row>", "A row or a cell of this workbook is larger than any can be."),
]


@pytest.mark.parametrize("part, before, more, what", SWOLLEN, ids=[what[:40] for *_, what in SWOLLEN])
def test_a_small_file_that_would_take_minutes_is_refused_at_once(part, before, more, what):
    """15 million empty styles fit in 120 KB, a cell of 90 MB in 90 KB: what they would cost is counted before the workbook library reads them."""
    raw, start = changed(part, before, more + before), clock.process_time()
    assert str(look(raw).question) == f"run.xlsx: {what} Save the sheet with the run as CSV."
    assert clock.process_time() - start < 3


def test_a_sheet_with_too_many_rows_names_the_row(monkeypatch):
    monkeypatch.setattr(workbook, "MOST_ROWS", 5)
    assert str(look(Raw("run.xlsx", book(Run=rows([1, 2, 3, 4])))).question) == (
        "run.xlsx, line 6: This sheet is too large to read. Keep only the rows and columns of one run."
    )


@pytest.mark.slow
def test_damaged_workbooks_are_read_or_refused():
    whole = book(Run=rows([TEN + timedelta(seconds=2 * n) for n in range(6)]))
    for place in range(0, len(whole), 41):
        for sign in (0, 255, whole[place] ^ 1):
            try:
                read_run(Raw("run.xlsx", whole[:place] + bytes([sign]) + whole[place + 1 :]))
            except IntakeFault as fault:
                assert len(str(fault).split()) <= 40
