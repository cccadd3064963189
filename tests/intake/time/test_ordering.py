"""Times that run forward: midnight, summer time by the rules of the IANA database, lines out of order, stamps that come twice."""

from datetime import datetime, timedelta, timezone
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from kit.intake.read import look
from tests.intake.time.test_clocks import elapsed, question, record

START = "pasted text, "


def clock_face(seconds, form="%H:%M:%S"):
    return [(datetime(2026, 3, 1) + timedelta(seconds=int(each))).strftime(form) for each in seconds]


@pytest.mark.parametrize(
    "form, seconds, hours",
    [("%H:%M:%S", range(86390, 86410, 2), 24), ("%I:%M:%S", range(46790, 46810, 2), 12), ("%M:%S", range(3590, 3610, 2), 1)],
)
def test_a_clock_that_starts_anew_is_counted_on(form, seconds, hours):
    run = look(record(clock_face(seconds, form)), clock="mm:ss").run
    assert run.readings.index.tolist() == list(range(0, 20, 2))
    assert run.remarks[2] == f"The clock starts anew in line 7: counted on, {hours} h added from there."


# The IANA time zone database (2026): in these zones the clock goes back or forward by one hour on these days, at these moments in UTC.
CHANGES = [
    ("Europe/Berlin", datetime(2026, 10, 25, 1), "ends"),
    ("Europe/Berlin", datetime(2026, 3, 29, 1), "begins"),
    ("America/New_York", datetime(2026, 11, 1, 6), "ends"),
    ("America/New_York", datetime(2026, 3, 8, 7), "begins"),
    ("Australia/Sydney", datetime(2026, 4, 4, 16), "ends"),
]


@pytest.mark.parametrize("zone, change, way", CHANGES)
@pytest.mark.parametrize("step", [2, 60])
def test_summer_time_is_asked_and_undone(zone, change, way, step):
    moments = [change.replace(tzinfo=timezone.utc) + timedelta(seconds=step * n) for n in range(-5, 5)]
    walls = [moment.astimezone(ZoneInfo(zone)) for moment in moments]
    bare = record([wall.strftime("%Y-%m-%d %H:%M:%S") for wall in walls])
    goes, began, other = (
        ("forward", "began", "as written' (the logger paused)") if way == "begins" else ("back", "ended", "set back' (someone set it back)")
    )
    assert (
        question(bare) == f"{START}line 7: The clock goes {goes} by an hour here. Say clock='summer time' (summer time {began}) or clock='{other}."
    )
    expected = [step * n for n in range(10)]
    assert elapsed(bare, clock="summer time") == expected
    named = record([wall.strftime("%Y-%m-%d %H:%M:%S %Z") for wall in walls])
    assert elapsed(named) == expected if walls[0].tzname().isalpha() else True
    assert elapsed(record([wall.isoformat() for wall in walls])) == expected


def test_a_pause_of_an_hour_stays_one_if_the_caller_says_so():
    text = record(clock_face([0, 2, 4, 3606, 3608]))
    run = look(text, clock="as written").run
    assert run.readings.index.tolist() == [0, 2, 4, 3606, 3608]
    assert run.remarks[-1] == (
        "1 gap in the record, from 4 s to 60 min 6 s: no reading for 60 min 2 s. The logger paused, or its clock was set forward."
    )


def test_the_newest_line_may_come_first():
    run = look(record(clock_face([36006, 36004, 36002, 36000]))).run
    assert run.readings.index.tolist() == [0, 2, 4, 6] and run.readings.treated.tolist() == [21.3, 21.2, 21.1, 21.0]
    assert run.remarks[2] == "The newest line came first: read from the last line to the first."


def test_lines_that_fill_each_others_gaps_are_sorted():
    run = look(record([0, 2, 6, 4, 8, 10, 12, 14, 16, 18], "time (s)")).run
    assert run.readings.treated.tolist()[:5] == [21.0, 21.1, 21.3, 21.2, 21.4]
    assert run.remarks[2] == "Sorted by time: 2 lines stood elsewhere, first line 5."


BACK = (
    "Say clock='sorted' (the lines are mixed up) or clock='set back' (someone set it back). Two runs in one file? Save them apart."
)


@pytest.mark.parametrize(
    "times, line, jump", [([0, 2, 4, 0, 2, 4], 5, 4), ([0, 2, 4, 6, 8, 1, 3, 5, 7], 7, 7), ([0, 2, 4, 6, 5, 7, 9], 6, 1)]
)
def test_any_other_way_back_is_asked(times, line, jump):
    assert question(record(times, "time (s)")) == f"{START}line {line}: The clock goes back by {jump} s here. {BACK}"


def test_a_clock_that_was_set_back_goes_on_by_a_usual_step():
    run = look(record([0, 2, 4, 6, 1, 3, 5], "time (s)"), clock="set back").run
    assert run.readings.index.tolist() == [0, 2, 4, 6, 8, 10, 12]
    assert run.remarks[2] == "The clock was set back in line 6, as you said: 7 s added from there, for one usual step."


def test_lines_that_come_again_are_left_out():
    text = record([0, 2, 4, 6, 8, 10, 12], "time (s)").splitlines()
    run = look("\n".join([*text[:5], *text[3:5], *text[5:], ""])).run
    assert run.readings.index.tolist() == [0, 2, 4, 6, 8, 10, 12]
    assert run.remarks[2] == "Left out 2 repeated lines, first line 6."


@pytest.mark.parametrize(
    "times, expected",
    [
        ([0, 0, 60, 60, 60, 60, 120, 120, 120, 120, 180, 180, 180, 180, 240], np.arange(15) * 15.0),
        ([0, 2, 4, 4, 8, 10], [0, 2, 4, 5, 8, 10]),
    ],
)
def test_readings_that_share_a_stamp_lie_evenly_within_it(times, expected):
    run = look(record(times, "time (s)")).run
    assert run.readings.index.tolist() == list(expected)
    assert " with the time of the line before, first line " in run.remarks[2]


def test_many_lines_of_one_time_are_asked_about_and_then_lie_evenly_up_to_the_next():
    text = record([0, 2, 4, *[6] * 8, 8, 10, 12], "time (s)")
    assert question(text) == (
        f"{START}line 5: 8 lines share one time from here, and the next time is 2 s later. Say clock='spread evenly' (the lines lie evenly "
        "between two times). Or say time= with another column."
    )
    assert elapsed(text, clock="spread evenly") == [0, 2, 4, *np.arange(6, 8, 0.25), 8, 10, 12]


def test_a_logger_faster_than_its_clock_may_write_nineteen_lines_in_one_second():
    times = [*np.repeat(np.arange(5), 2), *[5] * 19, *np.repeat(np.arange(6, 9), 2)]
    taken = elapsed(record(times, "time (s)"), clock="spread evenly")
    assert taken[:10] + taken[29:] == [0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 6, 6.5, 7, 7.5, 8, 8.5]
    assert taken[10:29] == pytest.approx(5 + np.arange(19) / 19, abs=1e-6)


def test_a_clock_that_stands_still_up_to_the_end_is_no_clock():
    times = [0, 2, 4, *[6] * 9]
    assert question(record(times, "time (s)")) == (
        f"{START}line 5: The time stands still for 9 lines from here, up to the end. Say time= with another column, or correct it in a copy."
    )


def test_one_time_on_all_lines_is_settled_by_how_often_they_came():
    text = record(["10:00:01"] * 6)
    assert question(text) == (
        "pasted text: All 6 lines have one and the same time. Say how often the readings came, clock='every 2 s', or time= with another column."
    )
    assert elapsed(text, clock="every 0.5 s") == [0, 0.5, 1, 1.5, 2, 2.5]


def test_lines_without_a_time_are_left_out_and_said():
    run = look(record([0, "", 4, "NA", 8], "time (s)")).run
    assert run.readings.index.tolist() == [0, 4, 8] and run.remarks[2] == "Left out 2 lines without a time, first line 3."


def test_one_reading_is_no_run():
    do = "A run needs at least two: record for longer, or export the whole record."
    assert question(record([0, "", ""], "time (s)")) == f"pasted text: This record holds 1 reading with a time. {do}"


@pytest.mark.parametrize("shift", [0, 5, 43200, 86390])
def test_shifting_the_clock_changes_nothing(shift):
    assert elapsed(record(clock_face(np.arange(0, 20, 2) + shift))) == list(range(0, 20, 2))


def test_a_pause_of_an_hour_between_full_hours_is_no_summer_time():
    """Clocks go forward at a full hour (IANA time zone database: every change of the last thirty years)."""
    seconds = [*range(36007, 36017, 2), *range(39617, 39627, 2)]
    assert elapsed(record(clock_face(seconds, "%Y-%m-%d %H:%M:%S")))[5] == 3610


def test_a_logger_that_was_switched_on_again_is_asked_about_whatever_its_clock_has_counted():
    """Its count of milliseconds starts anew within the half day that a clock of twelve hours turns in."""
    counts = [*range(1405, 7_000_000, 300_400), *range(1377, 7_000_000, 300_400)]
    rows = [f"{count},{21 + row % 7 / 10:.1f},{20 + row % 5 / 10:.1f}" for row, count in enumerate(counts)]
    text = "\n".join([*rows, ""])
    asked = look(text).questions
    assert [each.keyword for each in asked] == ["clock", "clock", "treated", "control", "unit"]
    run = look(text, clock=["ms", "set back"], treated=2, control=3, unit="degC").run
    assert len(run.readings) == len(counts) and np.diff(run.readings.index).max() == pytest.approx(300.4)
    assert any("The clock was set back in line 25, as you said" in remark for remark in run.remarks)


def test_many_lines_of_the_last_day_are_asked_about_where_dates_alone_are_the_time():
    text = "time,treated (°C),control (°C)\n2026-03-14,21,20\n" + "".join(f"2026-03-15,21.{n},20\n" for n in range(3))
    assert "3 lines share one time from here, and no other time follows. Say clock='spread evenly'" in str(look(text).question)
