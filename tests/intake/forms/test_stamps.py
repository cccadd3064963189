"""Stamps against the examples of RFC 3339, Python's datetime and strptime, and the calendar."""

from datetime import date, datetime, timedelta, timezone

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.faults import IntakeFault
from kit.intake.given.table import Asked
from kit.intake.time.stampcolumn import days_since_1970
from kit.intake.time.stampcolumn import clock_of_stamps
from kit.intake.forms.stamps import looks_like_time, stamp
from kit.intake.time.stampset import all_at_once, gathered
from kit.intake.given.table import Column, Table, as_texts


def clock(cells, unit="", **words):
    column = Column("time", as_texts(cells), name="time", unit=unit)
    return clock_of_stamps(Table("a.csv", (column,), np.arange(2, 2 + len(cells))), column, Asked(**words))


def since_1970(cells, **words):
    read = clock(cells, **words)
    return read.seconds + 86400 * read.midnight


@pytest.mark.parametrize(
    "written, utc",
    [
        # RFC 3339 (2002), section 5.8, all of its examples; the leap second counts as the first second of the next day.
        ("1985-04-12T23:20:50.52Z", datetime(1985, 4, 12, 23, 20, 50, 520_000)),
        ("1996-12-19T16:39:57-08:00", datetime(1996, 12, 20, 0, 39, 57)),
        ("1990-12-31T23:59:60Z", datetime(1991, 1, 1)),
        ("1990-12-31T15:59:60-08:00", datetime(1991, 1, 1)),
        ("1937-01-01T12:00:27.87+00:20", datetime(1937, 1, 1, 11, 40, 27, 870_000)),
    ],
)
def test_the_examples_of_rfc_3339(written, utc):
    assert since_1970([written])[0] == pytest.approx((utc - datetime(1970, 1, 1)).total_seconds(), abs=1e-6)


@settings(max_examples=200, deadline=None)
@given(
    st.datetimes(datetime(1990, 1, 1), datetime(2099, 12, 31)),
    st.integers(-14 * 60, 14 * 60).map(lambda minutes: timezone(timedelta(minutes=minutes))),
    st.sampled_from(["T", " "]),
)
def test_isoformat_of_python_is_read_as_python_means_it(moment, zone, between):
    written = moment.replace(tzinfo=zone).isoformat(between)
    assert since_1970([written])[0] == pytest.approx(moment.replace(tzinfo=zone).timestamp(), abs=1e-6)


@settings(max_examples=200, deadline=None)
@given(
    st.datetimes(datetime(2000, 1, 1), datetime(2099, 12, 31)),
    st.sampled_from(["%I:%M:%S %p", "%d %b %Y %I:%M:%S %p", "%B %d, %Y %H:%M:%S"]),
)
def test_what_strftime_writes_is_read_as_strptime_reads_it(moment, form):
    written = moment.strftime(form)
    expected = datetime.strptime(written, form)
    seconds = (expected - datetime.combine(expected, datetime.min.time())).total_seconds()
    assert clock([written]).seconds[0] == seconds


def test_days_are_those_of_the_calendar():
    days = [date(1970, 1, 1) + timedelta(days=7 * week) for week in range(8000)]
    written = np.array([(each.year, each.month, each.day) for each in days])
    assert (days_since_1970(written, (0, 1, 2)) == np.array([each.toordinal() for each in days]) - date(1970, 1, 1).toordinal()).all()


@pytest.mark.parametrize("year, month, day", [(2026, 2, 29), (2026, 4, 31), (2026, 13, 1), (2026, 0, 1), (2026, 1, 0), (2100, 2, 29)])
def test_there_is_no_such_day(year, month, day):
    with pytest.raises(ValueError):
        date(year, month, day)
    assert np.isnan(days_since_1970(np.array([[year, month, day]]), (0, 1, 2))[0])


@pytest.mark.parametrize(
    "cell, seconds",
    [
        ("0:00:02", 2),
        ("100:00:00", 360000),
        ("5 min 30 s", 330),
        ("5m30s", 330),
        ("1 h 2 min", 3720),
        ("30 s", 30),
        ("5'30\"", 330),
        ("2,5 s", 2.5),
        ("PT5M30S", 330),
        ("10:00:00,5", 36000.5),
        ("20260301T100002", 36002),
        ("1.3.26 10:00:00", 36000),
    ],
)
def test_times_as_people_write_them(cell, seconds):
    assert stamp(cell).time_s == seconds


@pytest.mark.parametrize(
    "cell", ["", "21.4", "7", "1e5", "abc", "10:75:00", "10:00:0x", "10:00:00 abc", "PT", "h", "20260301", "5 C", "12:00:61"]
)
def test_what_is_no_time(cell):
    assert stamp(cell) is None and not looks_like_time(cell)


FORMS = [
    "%Y-%m-%dT%H:%M:%S",
    "%Y-%m-%d %H:%M:%S.%f",
    "%d.%m.%Y %H:%M",
    "%H:%M:%S",
    "%I:%M:%S %p",
    "%b %d, %Y %H:%M:%S",
    "%Y-%m-%dT%H:%M:%S+01:00",
]


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("step", [1, 2.5, 60, 4000])
def test_all_at_once_is_the_same_as_one_by_one(form, step):
    cells = [(datetime(2026, 9, 30, 23, 0, 0) + n * timedelta(seconds=step)).strftime(form) for n in range(300)]
    quick, slow = all_at_once(as_texts(cells)), gathered([stamp(cell) for cell in cells])
    assert quick.form == slow.form
    assert (quick.time_s == pytest.approx(slow.time_s, abs=1e-9)) and (np.repeat(quick.date, quick.lengths, axis=0) == slow.date).all()
    assert (quick.spread(quick.half) == slow.half).all() and (quick.spread(quick.zone) == slow.zone).all()


@pytest.mark.parametrize("odd", ["10:00:6x", "10:61:00", "1:00:00", "10.00:00", "10:00:00 ", "", "10:00:0٣", "24:00:00Z"])
def test_a_column_with_one_odd_cell_is_left_to_the_slow_way(odd):
    assert all_at_once(as_texts(["10:00:00"] * 300 + [odd])) is None


ALIKE = "Write all times alike in a copy of the file."
PARTS = "Say clock='mm:ss' (minutes and seconds) or clock='h:mm' (hours and minutes)."
OTHER_ORDER = "Correct it in a copy of the file, or say clock= with another order."
OPEN_DAY = (
    "Day and month of '03/04/2026 23:59' could change places. Say clock='day first' (2026-04-03) or clock='month first' (2026-03-04)."
)


@pytest.mark.parametrize(
    "cells, words, message",
    [
        (["10:00:00", "10:00:0x"], {}, "line 3, column 'time': '10:00:0x' is no time. Correct it in a copy of the file."),
        (["10:00:00", "10:01"], {}, "line 3, column 'time': '10:01' is written unlike the time before it. " + ALIKE),
        (["0:02"], {}, "line 2, column 'time': '0:02' could be minutes and seconds, or hours and minutes. " + PARTS),
        (["13:00:00 PM"], {}, "line 2, column 'time': '13:00:00 PM' is no time of a 12-hour clock. Correct it in a copy of the file."),
        (["", ""], {}, "column 'time': This column holds no time. Say time= with another one."),
        (["31/02/2026"], {}, "line 2, column 'time': '31/02/2026' is no date. " + OTHER_ORDER),
        (["03/14/2026"], {"clock": "day first"}, "line 2, column 'time': '03/14/2026' is no date with the day first. " + OTHER_ORDER),
        (["03/04/2026 23:59", "04/04/2026 00:00"], {}, "line 2, column 'time': " + OPEN_DAY),
    ],
)
def test_what_is_asked_or_refused(cells, words, message):
    with pytest.raises(IntakeFault) as fault:
        clock(cells, **words)
    assert str(fault.value) == f"a.csv, {message}"


@pytest.mark.parametrize("word, second", [("day first", "04/04/2026"), ("month first", "03/05/2026")])
def test_the_word_settles_which_number_is_the_day(word, second):
    seconds = clock(["03/04/2026 00:00:00", f"{second} 00:00:00"], clock=word).seconds
    assert seconds[1] - seconds[0] == 86400


def test_the_order_does_not_matter_within_a_day():
    read = clock(["03/04/2026 10:00:00", "03/04/2026 10:00:02"])
    assert (read.seconds == [36000, 36002]).all() and read.midnight is None


def test_one_stamp_among_many_that_is_written_in_brackets_is_no_crash():
    cells = [f"2026-10-05T10:{n // 60:02d}:{n % 60:02d}" for n in range(300)]
    cells[7] = "2026-10-0)T10:00:07"
    with pytest.raises(IntakeFault, match="is no time"):
        clock(cells)
    cells[7] = "[026-10-05T10:00:07"
    with pytest.raises(IntakeFault, match="is no time|unlike"):
        clock(cells)
