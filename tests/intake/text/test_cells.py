"""The cells of a table: the quick way and the slow way agree, and what is left out is said."""

import csv
import io

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.faults import IntakeFault
from kit.intake import look
from kit.intake.text import cells
from kit.intake.text.cells import Block, quickly, read_cells
from kit.intake.given.source import Text
from kit.intake.text.lines import line_by_line
from kit.intake.text.sniffing import sniff

HEAD = "time (s),treated (°C),control (°C)\n"


def table_of(text):
    text = Text("a.csv", text.encode())
    return read_cells(text, sniff(text))


def even(rows, more=""):
    return HEAD + "".join(f"{2 * n},{21 + n / 100:.2f},21.5\n" for n in range(rows)) + more


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.tuples(st.floats(-1e6, 1e6), st.one_of(st.none(), st.floats(-300, 3000))), min_size=3, max_size=40), st.sampled_from(",;\t")
)
def test_the_quick_way_gives_the_numbers_of_pandas_and_of_the_slow_way(rows, delimiter):
    """From a size on, that is; here all blocks are large enough."""
    rows[0] = (0.5, 21.5)
    written = "".join(f"{one!r}{delimiter}{'NA' if two is None else repr(two)}{delimiter}10:00:00\n" for one, two in rows)
    text = Text("a.csv", f"a{delimiter}b{delimiter}c\n{written}".encode())
    layout = sniff(text)
    block = Block(text, cells.start_of_line(text.utf8, layout.first), len(text.utf8), layout.first)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(cells, "QUICK_BYTES", 0)
        quick = quickly(block, layout)
    slow, bare = line_by_line(block, layout), pd.read_csv(io.BytesIO(text.utf8), sep=delimiter)
    assert quick is not None and (quick.lines == slow.lines).all()
    for one, two, name in zip(quick.parts, slow.parts, bare):
        assert (one.values == two.values).all() if name == "c" else one.values.tobytes() == two.values.tobytes()
        assert name == "c" or np.array_equal(one.values, bare[name].to_numpy(float), equal_nan=True)


@pytest.mark.parametrize(
    "odd",
    ["9,21.5\n", "9,21.5,21.4,3\n", '9,"21.5",21.4\n', "9,abc,21.4\n", "9,1e400,21.4\n", "\n", "# note\n", "9,TRUE,21.4\n", "9,1_0,2\n"],
)
def test_the_quick_way_hands_over_what_is_not_even(odd):
    text = Text("a.csv", even(500, odd).encode())
    assert quickly(Block(text, len(HEAD.encode()), len(text.utf8), 2), sniff(text)) is None


def test_only_the_uneven_block_is_read_slowly(monkeypatch):
    monkeypatch.setattr(cells, "BLOCK_BYTES", 20_000)
    taken = []
    monkeypatch.setattr(cells, "line_by_line", lambda block, layout: taken.append(block.first) or line_by_line(block, layout))
    text = even(9000).splitlines(keepends=True)
    text.insert(5000, "# lamp moved\n")
    table = table_of("".join(text))
    assert len(taken) == 1 and table.lines[[0, -1]].tolist() == [2, 9002] and 5001 not in table.lines
    assert table.remarks[-1] == "Left out 1 line without readings: line 5001 '# lamp moved'."
    assert table.columns[0].values.tolist() == [2.0 * n for n in range(9000)]


def test_a_block_may_hold_nothing_but_notes(monkeypatch):
    monkeypatch.setattr(cells, "BLOCK_BYTES", 1000)
    table = table_of(even(20) + "# quiet\n" * 2000 + "40,21.5,21.4\n")
    assert table.columns[0].values.tolist() == [2.0 * n for n in range(21)]
    assert table.remarks[-1].startswith("Left out 2,000 lines without readings: line 22 '# quiet', line 23 '# quiet', line 24")


@pytest.mark.parametrize("limit", [131_072, 10**9])
def test_a_cell_longer_than_any_reading_is_refused_whatever_limit_other_libraries_set(limit):
    before = csv.field_size_limit(limit)
    try:
        with pytest.raises(IntakeFault, match="far too long") as fault:
            table_of(even(5, "10,21.5," + "9" * 200_000 + "\n") + "12,21.5,21.4\n")
    finally:
        csv.field_size_limit(before)
    assert fault.value.line == 7


def test_blocks_are_whole_lines_and_know_their_numbers(monkeypatch):
    text = Text("a.csv", even(50).encode())
    found = list(Block(text, len(HEAD.encode()), len(text.utf8), 2).parts(100))
    assert b"".join(block.utf8 for block in found) == text.utf8[len(HEAD.encode()) :]
    assert all(text.utf8.split(b"\n")[block.first - 1] == block.utf8.split(b"\n")[0] for block in found)


@pytest.mark.parametrize(
    "more, remarks",
    [
        ("", ()),
        ("# gas on\n\n---\n16,21.5,21.4\n", ("Left out 1 line without readings: line 7 '# gas on'.",)),
        ("gas on,,\n", ("Left out 1 line without readings: line 7 'gas on'.",)),
        (HEAD, ("Left out 1 line without readings: line 7 'time (s) treated (°C) control (°C)'.",)),
        (
            "Average,21.4,21.5\nMax:,21.6,21.5\n",
            ("Left out 2 lines with a summary, not readings: line 7 'Average 21.4 21.5', line 8 'Max: 21.6 21.5'.",),
        ),
        ("10,21.5", ("Left out 1 line that is cut off: line 7 '10 21.5'.",)),
        ("10,21.5,21.5", ("The last line has no line end: look whether it is whole.",)),
        ("10\n12\n14\n", ("3 lines ended early, first line 7; the cells at the end count as missing.",)),
    ],
)
def test_what_is_no_reading_is_left_out_and_said(more, remarks):
    assert table_of(even(5, more)).remarks[1:] == remarks


BOTH = "Is a comma both decimal mark and delimiter? Export with semicolons, or correct it in a copy."
QUOTE = (
    "A quotation mark here or in the next line is not closed, or stands inside a cell; or a cell is far too long. "
    "Correct it in a copy of the file."
)


@pytest.mark.parametrize(
    "more, message",
    [
        ("10,21.5\n12,21.5,21.5\n", "line 7: This line has fewer cells than the others, which have 3. Complete it in a copy of the file."),
        ("10,21.5,21.4,3\n", "line 7: This line has 4 cells, the others 3. " + BOTH),
        ('10,"21.5,21.4\n', "line 7: " + QUOTE),
        ('10,"21.5"5,21.4\n', "line 7: " + QUOTE),
    ],
)
def test_what_can_be_read_in_two_ways_is_refused(more, message):
    with pytest.raises(IntakeFault) as fault:
        table_of(even(5, more))
    assert str(fault.value) == f"a.csv, {message}"


@pytest.mark.parametrize(
    "cell, value, note",
    [
        ("NA", None, ()),
        ("", None, ()),
        ("---", None, ()),
        ("Err", None, ("{}: 1 cell like 'Err', first in line 7, counted as missing.",)),
        ('"1,204.5"', 1204.5, ("{}: 1 number with a mark between thousands, first '1,204.5' in line 7.",)),
        ("21.4 °C", 21.4, ("{}: 1 number with a unit behind, first '21.4 °C' in line 7.",)),
    ],
)
def test_unusual_cells_are_read_and_said(cell, value, note):
    column = table_of(even(5, f"10,21.5,{cell}\n")).columns[2]
    assert column.notes == note and column.odd is None
    assert np.isnan(column.values[-1]) if value is None else column.values[-1] == value


@pytest.mark.parametrize("cell", ["abc", "21.4 °F", "2 1.4", "1e400", "21.4%"])
def test_a_cell_that_is_no_number_of_this_column_is_kept_as_odd(cell):
    assert table_of(even(5, f"10,21.5,{cell}\n")).columns[2].odd == (7, cell)


def test_a_column_that_starts_empty_is_one_of_numbers_if_all_its_cells_are():
    text = "a,b,c\n" + "".join(f"{n},1.5,\n" for n in range(300)) + "300,1.5,7\n"
    assert table_of(text).columns[2].values[-1] == 7
    assert table_of(text.replace("7\n", "on\n")).columns[2].values.tolist()[-1] == "on"


@pytest.mark.parametrize("first", ["0,21.4,21.3", "0,21.4,21.3,", "0,21.4,21.3,,,"])
@pytest.mark.parametrize("header", ["", "time (s),treated (°C),control (°C)\n"])
def test_no_first_reading_is_lost_where_lines_end_in_separators_or_not(first, header):
    rest = "".join(f"{2 * n},{21.4 + n / 10:.1f},21.3,\n" for n in range(1, 6))
    words = {} if header else dict(clock="s", treated=2, control=3, unit="degC")
    run = look(f"{header}{first}\n{rest}", **words).run
    assert run.readings.index.tolist() == [0, 2, 4, 6, 8, 10]
    assert run.readings.treated.tolist() == [21.4, 21.5, 21.6, 21.7, 21.8, 21.9]


def test_a_line_that_lacks_only_an_empty_cell_is_whole():
    rows = [f"{2 * n},21.{n},21.3{',' if n != 4 else ''}" for n in range(9)]
    run = look("\n".join(["time (s),treated (°C),control (°C)", *rows, ""])).run
    assert len(run.readings) == 9 and not any("ended early" in remark for remark in run.remarks)


def fixed_width(cut=None, rows=200, decimals=2, mark=".", sep=","):
    """A table whose columns write all their decimals, with some cells changed: {line: (column, cell)}."""
    lines = [["time (s)", "treated (°C)", "control (°C)"]]
    lines += [[str(2 * n), *(f"{start + 0.37 * n % 1:.{decimals}f}".replace(".", mark) for start in (21, 20))] for n in range(rows)]
    for line, (column, cell) in (cut or {}).items():
        lines[line - 1][column] = cell
    return "\n".join(map(sep.join, lines)) + "\n"


def said_of_cuts(text):
    return [remark for remark in look(text).run.remarks if "fewer decimals" in remark]


@pytest.mark.parametrize(
    "cut, words, said",
    [
        ({57: (1, "21.")}, {}, ["'treated (°C)': fewer decimals than all others in '21.' in line 57: were figures cut off? Kept as written."]),
        ({57: (1, "21."), 90: (1, "21.3")}, {}, ["'treated (°C)': fewer decimals than all others in '21.' in line 57 and '21.3' in line 90"]),
        ({57: (2, "20,1")}, {"mark": ",", "sep": ";"}, ["'control (°C)': fewer decimals than all others in '20,1' in line 57"]),
        ({201: (2, "20.")}, {}, ["'control (°C)': fewer decimals than all others in '20.' in line 201"]),
        ({9: (1, "21."), 41990: (1, "21.1"), 60000: (2, "20.")}, {"rows": 60_000}, ["'treated (°C)'", "'control (°C)'"]),
        ({}, {}, []),
        ({line: (1, "21.3") for line in range(30, 40)}, {}, []),  # a column that leaves decimals out
        ({5: (1, "21.")}, {"rows": 12}, []),  # too few to tell
    ],
)
def test_numbers_cut_in_the_middle_of_a_line_are_named(cut, words, said):
    found = said_of_cuts(fixed_width(cut, **words))
    assert len(found) == len(said) and all(remark.startswith(start) for remark, start in zip(found, said))


def test_a_logger_that_drops_zeros_at_the_end_is_not_suspected():
    rows = "".join(f"{2 * n},{round(21 + 0.37 * n % 1, 2):g},{round(20 + 0.01 * n, 2):g}\n" for n in range(300))
    assert said_of_cuts(f"time (s),treated (°C),control (°C)\n{rows}") == []
    steady = "".join(f"{2 * n},{'21.5' if n == 250 else '21.25'},20.25\n" for n in range(300))
    assert said_of_cuts(f"time (s),treated (°C),control (°C)\n{steady}") == []


def test_a_column_with_one_decimal_beside_one_with_two_has_its_bare_marks_named():
    rows = "".join(f"{2 * n},{21 + 0.37 * n % 1:.1f},{'20.' if n == 150 else f'{20 + 0.37 * n % 1:.2f}'}\n" for n in range(200))
    (said,) = said_of_cuts(f"time (s),treated (°C),control (°C)\n{rows}")
    assert said.startswith("'control (°C)': fewer decimals than all others in '20.' in line 152")
