"""How a text is laid out: delimiter, decimal mark, header, units, and where the readings begin."""

import pytest

from kit.faults import IntakeFault
from kit.intake.given.source import Text
from kit.intake.read import look
from kit.intake.text.sniffing import sniff
from kit.intake.text.sniffing import by_delimiter

ROWS = [("0", "21.4", "21.3"), ("2", "21.5", "21.3"), ("4", "21.6", "21.4")]


def laid_out(text, decimal=None):
    return sniff(Text("a.csv", text.encode()), decimal)


def table(header, delimiter=",", comma=False):
    rows = (delimiter.join(row).replace(".", ",") if comma else delimiter.join(row) for row in ROWS)
    return "\n".join([*header, *rows, ""])


@pytest.mark.parametrize(
    "lines, record",
    [
        # RFC 4180, section 2, rules 1, 4, 5, 6 and 7: its own examples.
        (["aaa,bbb,ccc\r\n", "zzz,yyy,xxx\r\n"], [("aaa", "bbb", "ccc"), ("zzz", "yyy", "xxx")]),
        (['"aaa","bbb","ccc"\r\n', "zzz,yyy,xxx"], [("aaa", "bbb", "ccc"), ("zzz", "yyy", "xxx")]),
        (['"aaa","b\r\n', 'bb","ccc"\r\n', "zzz,yyy,xxx"], [("aaa", "b bb", "ccc"), ("zzz", "yyy", "xxx")]),
        (['"aaa","b""bb","ccc"'], [("aaa", 'b"bb', "ccc")]),
    ],
)
def test_the_examples_of_rfc_4180(lines, record):
    assert [cells for _, cells in by_delimiter(lines, ",", strict=True)] == record


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
@pytest.mark.parametrize("comma", [False, True])
def test_every_delimiter_with_either_decimal_mark(delimiter, comma):
    if delimiter == "," and comma:
        return
    layout = laid_out(table([delimiter.join(["time (s)", "treated", "control"])], delimiter, comma))
    assert (layout.delimiter, layout.decimal, layout.kinds, layout.first) == (delimiter, "," if comma else ".", "nnn", 2)
    assert layout.headers == ("time (s)", "treated", "control")


@pytest.mark.parametrize(
    "above, headers, units, first",
    [
        ([], ("column 1", "column 2", "column 3"), ("", "", ""), 1),
        (["a,b,c"], ("a", "b", "c"), ("", "", ""), 2),
        (["a,b,c", "s,°C,°C"], ("a", "b", "c"), ("s", "°C", "°C"), 3),
        (["a,b,c", "(s),(°C),(K)"], ("a", "b", "c"), ("s", "°C", "K"), 3),
        (["Logger, no. 7", "", "a,b,c", "---,---,---"], ("a", "b", "c"), ("", "", ""), 5),
        (["Serial,12", 'Probe 5",long', "a,b,c"], ("a", "b", "c"), ("", "", ""), 4),
        (["time,treated,control", "a,T,T"], ("a", "treated T", "control T"), ("", "", ""), 3),
        (['a,"b\n(°C)",c'], ("a", "b (°C)", "c"), ("", "", ""), 3),
    ],
)
def test_what_stands_above_the_readings(above, headers, units, first):
    layout = laid_out(table(above))
    assert (layout.headers, layout.units, layout.first) == (headers, units, first)


def test_a_layout_says_what_it_is():
    layout = laid_out(table(["a;b;c"], ";", comma=True))
    assert str(layout) == "Cells are parted by semicolons; the readings begin in line 2, with a comma (21,4) as decimal mark."


@pytest.mark.parametrize(
    "line, kinds",
    [
        ("2026-03-01 10:00:02,21.4,21.5", "tnn"),
        ("10:00:02 AM,21.4,", "tn-"),
        ("0,treated,21.4", "nxn"),
        ("0,21.4 °C,21.5 °C", "nnn"),
        ("0 21.4 21.5", "nnn"),
        ("2026-03-01 10:00:02  21,4  21,5", "tnn"),
        ("| 0 | 21.4 | 21.5 |", "nnn"),
    ],
)
def test_what_the_columns_hold(line, kinds):
    assert laid_out(f"{line}\n{line}\n{line}\n").kinds == kinds


TABLE = "Export the run as a table: in each line a time and two temperatures, a header above."
BOTH = "Is a comma both decimal mark and delimiter? Export with semicolons, or correct it in a copy."


@pytest.mark.parametrize(
    "text, message",
    [
        ("time,treated,control\n", "line 1: There is a header, and no reading below it. Was the logger started? Export the run again."),
        (
            "T\n21.4\n21.5\n",
            "line 1: There is only one column here. A run needs a time and two temperatures in each line, and a header above them.",
        ),
        ("Dear diary\nit was hot\n", f"line 1: No line here looks like readings. {TABLE}"),
        ("a,b,c\n0,21,4,21,5\n2,21,4,21,5\n", f"line 1: This header has 3 cells, the lines below 5. {BOTH}"),
        ("a,b,c,d\n0,21.4,21.5\n2,21.4,21.5\n", f"line 1: This header has 4 cells, the lines below 3. {BOTH}"),
        (",".join(["1"] * 300) + "\n", "line 1: A line has 300 cells; at most 200 are read. Keep the columns of one run in a copy."),
    ],
)
def test_what_is_no_table(text, message):
    with pytest.raises(IntakeFault) as fault:
        laid_out(text)
    assert str(fault.value) == f"a.csv, {message}"


@pytest.mark.parametrize("text", ["", "\n", " \n\t\n"])
def test_a_mark_alone_is_an_empty_file(text):
    with pytest.raises(IntakeFault) as fault:
        laid_out(text)
    assert str(fault.value) == "a.csv: This file is empty. Export the run again, and look into the file before you close the logger."


def test_a_line_that_does_not_fit_columns_of_fixed_width_is_not_cut_through():
    """A wider number moves what stands before it to the left: the line is parted at its blanks, or refused, never inside a number."""
    head = "Time    Treated  Control\n        degC     degC\n"
    body = "".join(f"0:00:{n:02d}   {20 + n}.5     {'' if n == 4 else '20.5'}\n" for n in range(9))
    run = look(f"{head}{body}0:00:09  100.25     20.5\n").run
    assert run.readings.treated.tolist()[-1] == 100.25


def test_a_title_above_columns_without_names_is_no_header():
    rows = "".join(f" {2 * n:3d}  {21 + n}.5 0  {20 + n}.25 0\n" for n in range(6))
    assert look(f" Somewhere Valley\n   37.70  105.92 2317 m\n{rows}").question.questions[0].choices


@pytest.mark.parametrize("above", ["# made up\n# time_s treated_degC control_degC\n", "# time_s treated_degC control_degC\n"])
def test_a_comment_may_name_the_columns(above):
    run = look(above + "".join(f"{2 * n} {21 + n / 10} 20.5\n" for n in range(5))).run
    assert run.readings.index.tolist() == [0, 2, 4, 6, 8] and run.readings.control.tolist() == [20.5] * 5


def test_times_before_a_colon_or_an_arrow_part_from_the_readings():
    epochs = "".join(f"{1772359200 + 10 * n}: 2.1{n}e+01 2.05e+01\n" for n in range(6))
    monitor = "".join(f"[10:00:0{n}.120] -> 21.{n};20.5\n" for n in range(6))
    words = dict(treated="column 2", control="column 3", unit="degC")
    assert look(epochs, **words).run.readings.index.tolist() == [0, 10, 20, 30, 40, 50]
    named = monitor.replace("-> ", "treated: ").replace(";", " C, control: ").replace(".5\n", ".5 C\n")
    assert look(named).run.readings.index.tolist() == [0, 1, 2, 3, 4, 5]
    assert look(monitor, **words).run.readings.treated.tolist() == [21, 21.1, 21.2, 21.3, 21.4, 21.5]


@pytest.mark.parametrize("end", ["", ",", ",,"])
def test_row_numbers_without_a_name_shift_no_column_where_lines_end_in_empty_cells(end):
    rows = "".join(f'"{n + 1}",{10 * n},{21.4 + 0.1 * n:.2f},{21 + 0.1 * n:.2f}{end}\n' for n in range(6))
    run = look(f'"time (s)","treated_degC","control_degC"{end}\n{rows}').run
    assert run.readings.iloc[1].tolist() == [21.5, 21.1] and run.readings.index[1] == 10


@pytest.mark.parametrize("end", [";", "\t"])
def test_a_name_with_a_blank_shifts_no_column_where_blanks_may_part_cells(end):
    rows = "".join(f"3/{day}/26,{21 + 0.1 * day:.2f},{20 + 0.1 * day:.2f},7.0,{end}\n" for day in range(13, 25))
    run = look(f"date,treated temperature,control temperature,pH,notes{end}\n{rows}", unit="degC", treated=2, control=3).run
    assert run.readings.iloc[0].tolist() == [22.3, 21.3] and "Took column 'treated temperature' as treated, in °C." in run.remarks
