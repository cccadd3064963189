"""Long layout: one row a probe."""

from datetime import date, timedelta
from pathlib import Path

import pytest

from kit.intake.read import look

ROWS = [
    ("0", "treated", "21.4"),
    ("0", "control", "21.3"),
    ("2", "treated", "21.5"),
    ("2", "control", "21.3"),
    ("4", "treated", "21.7"),
    ("4", "control", "21.4"),
]


def record(header, rows=ROWS):
    return "\n".join([header, *map(",".join, rows), ""])


@pytest.mark.parametrize("header", ["time (s),probe,value (°C)", "time (s),who,°C", "time (s),channel,T (°C)"])
def test_each_probe_becomes_a_column(header):
    run = look(record(header)).run
    assert run.readings.treated.tolist() == [21.4, 21.5, 21.7] and run.readings.control.tolist() == [21.3, 21.3, 21.4]
    assert run.readings.index.tolist() == [0, 2, 4]
    assert "Joined on the 3 times of 'treated', over the 4 s that all cover." in run.remarks


def test_probes_by_number_are_named_by_the_caller():
    rows = [(time, {"treated": "1", "control": "2"}[probe], value) for time, probe, value in ROWS]
    run = look(record("time (s),channel,value (°C)", rows), treated="2", control="1").run
    assert run.readings.control.tolist() == [21.4, 21.5, 21.7]


def test_rows_may_carry_their_own_unit():
    rows = [(time, probe, value, "°C") for time, probe, value in ROWS] + [("0", "CO2", "0.04", "%"), ("4", "CO2", "1.2", "%")]
    run = look(record("time (s),sensor,value,unit", rows)).run
    assert run.readings.gas_ppm.tolist() == pytest.approx([400, 6200, 12000])


def test_probes_read_one_after_the_other_are_brought_to_one_time():
    rows = [(f"{float(time) + 0.5 * (probe == 'control')}", probe, value) for time, probe, value in ROWS]
    run = look(record("time (s),probe,value (°C)", rows)).run
    assert run.readings.index.tolist() == [0, 2] and run.readings.treated.tolist() == [21.5, 21.7]
    assert run.readings.control.tolist() == pytest.approx([21.3, 21.375])


@pytest.mark.parametrize(
    "text, message",
    [
        (
            record("time (s),probe,value (°C)", [*ROWS, ("6", "treatd", "21.7")]),
            "pasted text, line 8, column 'probe': Only this line names the probe 'treatd'. Correct it in a copy of the file.",
        ),
        (
            record("time (s),probe,state", [(row[0], row[1], "on") for row in ROWS]),
            "pasted text: Each row holds one probe, but no column holds its reading. Head it 'value' in a copy of the file.",
        ),
    ],
)
def test_what_is_refused(text, message):
    assert str(look(text).question) == message


def test_a_status_column_is_no_list_of_probes():
    text = "time (s),treated (°C),control (°C),status\n" + "".join(f"{n},21.4,21.3,{'ok' if n % 2 else 'low'}\n" for n in range(9))
    assert look(text).run.readings.index.size == 9


def test_thermometers_in_turn_are_joined_like_two_loggers():
    """Each line holds one reading, 4 s apart: none is moved to the time of another, nor are half of them missing."""
    lines = [line for n in range(5) for line in (f"10:00:{10 * n:02d},{21 + n},,7\n", f"10:00:{10 * n + 4:02d},,{30 + n},8\n")]
    run = look("time,left °C,right °C,count\n" + "".join(lines), treated="left °C", control="right °C").run
    assert run.readings.index.tolist() == [0, 10, 20, 30]
    assert run.readings.treated.tolist() == [22, 23, 24, 25]
    assert run.readings.control.tolist() == pytest.approx([30.6, 31.6, 32.6, 33.6])


def test_a_reading_that_is_missing_now_and_then_is_no_turn():
    run = look("time (s),treated (°C),control (°C)\n0,21,\n2,,20\n4,21,20\n6,21,20\n8,22,20\n").run
    assert len(run.readings) == 5 and run.readings.treated.isna().sum() == 1


def test_probes_in_turn_are_told_by_their_readings_where_no_header_is():
    run = look(Path(__file__).parents[2] / "files" / "turns-without-names.csv", treated="shelf high", control="shelf low", unit="degC").run
    assert run.readings.index.tolist() == [0, 60, 120, 180, 240]
    assert run.readings.treated.tolist() == [24.6, 24.7, 24.7, 24.8, 24.9] and run.readings.control.tolist() == [21.4, 21.4, 21.5, 21.5, 21.6]


def test_a_column_that_switches_without_a_leap_names_no_probes():
    rows = [f"{time},{'heater' if time // 8 % 2 else 'pause'},{21 + 0.1 * time:.1f}" for time in range(0, 80, 2)]
    assert "only one thermometer here, 'T (°C)'" in str(look("\n".join(["time (s),phase,T (°C)", *rows, ""])).question)


def late(form, first="2026-03-03", step=1):
    """One reading a day of each probe, of which the control begins two days later."""
    days = [date.fromisoformat(first) + timedelta(days=step * n) for n in range(6)]
    return [(f"{day:{form}}", "treated", f"{20 + n}.5") for n, day in enumerate(days)] + [
        (f"{day:{form}}", "control", f"{10 + n}.5") for n, day in enumerate(days) if n >= 2
    ]


@pytest.mark.parametrize("form", ["%Y-%m-%d 10:00", "%d.%m.%Y 10:00:00", "%Y%m%d100000", "%d %b %Y 10:00", "%b %d 10:00:00"])
def test_a_probe_that_begins_on_a_later_day_is_joined_on_its_own_days(form):
    run = look(record("time,probe,temperature (°C)", late(form)), clock="day first").run
    assert run.readings.index.tolist() == [86400 * n for n in range(4)]
    assert run.readings.treated.tolist() == [22.5, 23.5, 24.5, 25.5] and run.readings.control.tolist() == [12.5, 13.5, 14.5, 15.5]


def test_probes_of_several_days_ask_which_number_is_the_day():
    rows = [(f"3/{day}/2026 10:0{n}", probe, "21.5") for day, probe in ((2, "treated"), (4, "control")) for n in range(6)]
    fault = look(record("time,probe,temperature (°C)", rows)).question
    assert str(fault) == (
        "pasted text: Day and month of these dates could change places. Say clock='day first' or clock='month first'."
    )


ONE_EACH = (
    "hardly more than one reading of each. A run needs many, one after the other: let the logger record for some minutes, "
    "and export all that it recorded."
)


@pytest.mark.parametrize(
    "text, names",
    [
        ("sensor,temperature\nA,21.4\nB,21.3\n", "These 2 lines name 2 sensors ('A' and 'B')"),
        ("time,sensor,temp (°C)\n12:00:00,A,21.4\n12:00:00,B,21.3\n12:00:10,A,21.4\n", "These 3 lines name 2 sensors ('A' and 'B')"),
        ("2026-05-01 12:00:00;left;21.4\n2026-05-01 12:00:00;right;21.3\n", "These 2 lines name 2 sensors ('left' and 'right')"),
        ("Probe A: 21.4\nProbe B: 21.3\nProbe C: 20.9\n", "These 3 lines name 3 sensors ('A', 'B' and 'C')"),
        ("treated 21.4\ncontrol 21.3\n", "These 2 lines name 2 sensors ('treated' and 'control')"),
    ],
)
def test_a_glance_at_each_sensor_is_no_run_and_says_what_to_do(text, names):
    assert str(look(text).question) == f"pasted text: {names}: {ONE_EACH}"


@pytest.mark.parametrize(
    "texts", [("lamp on", "door opened", "lamp off"), ("on", "", "off"), ("on", "on", "off"), ("x", "y", "z")],
)
def test_texts_beside_two_thermometers_are_no_sensors(texts):
    rows = "".join(f"{10 * n};21.{n};21.{n + 1};{text}\n" for n, text in enumerate(texts))
    assert len(look(f"time (s);treated (°C);control (°C);what\n{rows}").run.readings) == 3


def test_columns_take_turns_although_the_first_line_comes_twice():
    lines = [f"{2 * (n // 2)};{f'21.{n};' if n % 2 == 0 else f';20.{n}'}\n" for n in range(24)]
    run = look("".join(["time (s);treated (°C);control (°C)\n", lines[0], *lines])).run
    assert run.readings.index.tolist() == [2 * n for n in range(12)]
    assert run.readings.treated.tolist() == [float(f"21.{2 * n}") for n in range(12)] and run.readings.control.iloc[1] == 20.3
