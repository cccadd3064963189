"""Which column is the time, and seconds from it: by its unit, its kind, the caller's word, or a question."""

from datetime import datetime, timedelta

import numpy as np
import pytest
from openpyxl.utils.datetime import to_excel

from kit.intake.read import look


def record(times, header="time", more=(), separator=";"):
    """A record as text, with the time's column first and `more` columns (header, cells) behind it."""
    heads = [header, *(name for name, _ in more), "treated (°C)", "control (°C)"]
    rows = zip(times, *(cells for _, cells in more), (f"{21 + n / 10:.1f}" for n in range(len(times))), [21.5] * len(times))
    return "".join(separator.join(map(str, row)) + "\n" for row in [heads, *rows])


def elapsed(text, **words):
    run = look(text, **words).run
    return run.readings.index.tolist()


def question(text, **words):
    fault = look(text, **words).question
    assert len(str(fault).split()) <= 60
    return str(fault)


@pytest.mark.parametrize(
    "header, times, seconds",
    [
        ("elapsed_s", [5, 7, 9.5], [0, 2, 4.5]),
        ("time (ms)", [0, 500, 1500], [0, 0.5, 1.5]),
        ("Zeit [min]", [0, 0.5, 1], [0, 30, 60]),
        ("hours", ["0 h", "0.5 h", "1 h"], [0, 1800, 3600]),
        ("t / h", [0, 0.1, 0.2], [0, 360, 720]),
        ("time (mm:ss)", ["0:00", "0:30", "1:00"], [0, 30, 60]),
        ("time (hh:mm)", ["0:00", "0:30", "1:00"], [0, 1800, 3600]),
        ("clock", ["10:00:00", "10:00:02", "10:00:04"], [0, 2, 4]),
        ("stamp", ["2026-03-01T10:00:00Z", "2026-03-01T10:00:02Z", "2026-03-01T11:00:04+01:00"], [0, 2, 4]),
    ],
)
def test_the_unit_or_the_form_tells(header, times, seconds):
    assert elapsed(record(times, header)) == pytest.approx(seconds, abs=1e-9)


@pytest.mark.parametrize("word, step", [("s", 1), ("min", 60), ("Minutes", 60), ("h", 3600), ("10 s", 10), ("0,5 min", 30)])
def test_the_word_tells_where_the_file_does_not(word, step):
    assert elapsed(record([0, 1, 2]), clock=word) == [0, step, 2 * step]


def test_spreadsheet_days_are_those_of_openpyxl():
    moments = [datetime(2026, 3, 1, 23, 59, 58) + timedelta(seconds=2.5 * n) for n in range(5)]
    assert elapsed(record([repr(to_excel(moment)) for moment in moments])) == [0, 2.5, 5, 7.5, 10]


@pytest.mark.parametrize("unit, header", [(1, "time"), (1, "time (s)"), (1000, "time (ms)"), (1000, "timestamp")])
def test_seconds_since_1970_are_recognised_by_their_size(unit, header):
    start = datetime(2026, 3, 1).timestamp()
    run = look(record([int((start + 2 * n) * unit) for n in range(4)], header)).run
    assert run.readings.index.tolist() == [0, 2, 4, 6] and "since 1970" in run.remarks[1]


@pytest.mark.parametrize("form", ["%m%d%Y%H%M%S", "%d%m%Y%H%M%S"])
@pytest.mark.parametrize("start", [datetime(2026, 3, 14, 23, 59, 58), datetime(2007, 1, 18, 23, 59, 58), datetime(2026, 12, 31, 23, 59, 58)])
def test_one_number_with_the_year_inside_is_a_date_and_a_time(form, start):
    """As strftime of Python's datetime writes them; a spreadsheet drops a zero in front, and what is left must not pass for milliseconds
    since 1970 (01 18 2007 …)."""
    stamps = [start + timedelta(seconds=2 * n) for n in range(5)]
    for written in (str, int):
        assert elapsed(record([written(f"{each:{form}}") for each in stamps])) == [0, 2, 4, 6, 8]


def test_one_number_with_the_year_inside_asks_which_is_the_day():
    fault = look(record(["03022026235958", "04022026000000", "05022026000002"])).question
    assert [choice.value for choice in fault.questions[0].choices] == ["day first", "month first"]


def test_numbers_without_a_unit_give_way_to_stamps():
    assert elapsed(record([0, 1, 2], "time", [("stamp", ["10:00:00", "10:00:02", "10:00:04"])])) == [0, 2, 4]


def test_a_clock_that_does_not_start_at_zero_is_said():
    run = look(record([-60, -58, -56], "time (s)")).run
    assert run.readings.index.tolist() == [0, 2, 4]
    assert run.remarks[2] == "The clock shows -60 s at the first reading, which counts as 0."


def test_a_date_and_a_time_in_two_columns_are_one_clock():
    text = record(["2026-03-01", "2026-03-01", "2026-03-02"], "Date", [("Time", ["23:59:56", "23:59:58", "00:00:00"])])
    assert elapsed(text) == [0, 2, 4]


def test_two_columns_that_agree_are_said():
    run = look(record([0, 60, 120], "elapsed (s)", [("clock", ["23:59", "0:00", "0:01"])]), clock="h:mm").run
    assert run.remarks[1:3] == ("Times are seconds, in column 'elapsed (s)'.", "Column 'clock' tells the same time.")


@pytest.mark.parametrize("time, last", [("elapsed (s)", 4), (1, 4), ("clock", 20), ("Clock", 20), (2, 20)])
def test_of_two_that_differ_the_caller_chooses(time, last):
    text = record([0, 2, 4], "elapsed (s)", [("clock", ["10:00:00", "10:00:09", "10:00:20"])])
    assert question(text) == "pasted text: Columns 'elapsed (s)' and 'clock' tell different times. Say time='elapsed (s)' or time='clock'."
    assert elapsed(text, time=time)[-1] == last


@pytest.mark.parametrize(
    "text, words, message",
    [
        (record([0, 1]), {}, "column 'time': These times are numbers without a unit. Say clock='s', clock='min', clock='h', clock='ms' or clock='d'."),
        (
            record([0, "x", 2, 3], "time (s)"),
            {},
            "line 3, column 'time (s)': 'x' is no time. " + "Correct it in a copy of the file, or leave the cell empty there.",
        ),
        (
            record([0, 1], "step"),
            {},
            "column 'step': These times are numbers without a unit. Say clock='s', clock='min', clock='h', clock='ms' or clock='d'.",
        ),
        (
            record([0, 1], "time (s)"),
            {"time": "Zeit"},
            "No single column is called 'Zeit'. Say time='time (s)', time='treated (°C)' or time='control (°C)'.",
        ),
        (
            record([0, 1], "time (s)"),
            {"time": 9},
            "No single column is called '9'. Say time='time (s)', time='treated (°C)' or time='control (°C)'.",
        ),
        (
            record([0, 20000], "time (d)"),
            {},
            "line 3: The time runs over 20,000 days up to here. Say time= with another column, or clock= with its unit.",
        ),
    ],
)
def test_what_is_asked(text, words, message):
    asked = question(text, **words)
    assert asked in (f"pasted text, {message}", f"pasted text: {message}")


def test_a_word_that_means_nothing_is_not_passed_over():
    assert question(record([0, 1]), clock="fortnight") == (
        "clock='fortnight' means nothing here. Say 's', 'min', 'h', 'd', 'mm:ss', 'h:mm', 'day first', 'month first', 'summer time', "
        "'as written', 'shared event', 'sorted', 'set back' or 'spread evenly'."
    )


def test_a_large_column_of_stamps_is_read_like_a_small_one():
    start = datetime(2026, 10, 31, 23, 50)
    stamps = [(start + timedelta(seconds=2 * n)).isoformat(" ") for n in range(1000)]
    assert (np.diff(elapsed(record(stamps))) == 2).all()


def test_milliseconds_without_zeros_in_front_are_no_decimals():
    """A program prints 48.012 s as 48.12: seen by a zero at the end of a shorter part, which decimals don't keep, or by the steps."""
    seconds = ["45.994", "46.999", "48.12", "49.31", "50.37", "51.90", "52.100"]
    assert elapsed(record([f"20:35:{each}" for each in seconds])) == pytest.approx([0, 1.005, 2.018, 3.037, 4.043, 5.096, 6.106])
    assert elapsed(record([f"20:35:{each}" for each in seconds[:4]])) == pytest.approx([0, 1.005, 2.018, 3.037])
    assert any("48.12 is 12 ms" in remark for remark in look(record([f"20:35:{each}" for each in seconds])).run.remarks)


@pytest.mark.parametrize("seconds", [["1.5", "2.25", "3.5"], ["1.05", "2.5", "3.95"], ["1.12", "2.13", "3.1"]])
def test_decimals_of_a_second_stay_what_they_are(seconds):
    assert elapsed(record([f"20:35:0{each}" for each in seconds])) == pytest.approx([float(each) - float(seconds[0]) for each in seconds])


@pytest.mark.parametrize(
    ("header", "times", "minutes"),
    [
        ("time", ["2026-10-25 10:41:30", "2026-10-25 10:41:40", "2026-10-25 10:41:50"], 641.5),
        ("clock", ["13:05:00", "13:05:10", "13:05:20"], 785),
        ("time", ["0:00:00", "0:00:10", "0:00:20"], None),
        ("time (s)", [30, 40, 50], None),
    ],
)
def test_a_run_knows_the_time_of_day_at_its_first_reading_where_a_clock_shows_it(header, times, minutes):
    """A record that begins at 0:00:00, or counts seconds, counts from its own start."""
    assert look(record(times, header)).run.clock_min == minutes
