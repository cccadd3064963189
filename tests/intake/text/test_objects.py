"""JSON in one piece: each reading keeps its line, damaged text is refused by line, and nothing large or deep stops the reader."""

import json

import pytest

from kit.intake import look
from kit.intake.text import objects

READINGS = [{"time_s": 2 * place, "treated_degC": 21.4 + place / 10, "control_degC": 21.25} for place in range(6)]


def lines_of(text):
    return look(text).table.lines.tolist()


def test_each_reading_keeps_the_line_where_it_begins():
    assert lines_of(json.dumps(READINGS, indent=1)) == [2, 7, 12, 17, 22, 27]
    assert lines_of(json.dumps({"bench": 3, "readings": READINGS}, indent=1)) == [4, 9, 14, 19, 24, 29]
    arrays = {name: [each[name] for each in READINGS] for name in READINGS[0]}
    assert lines_of(json.dumps(arrays, indent=1)) == [3, 4, 5, 6, 7, 8]


def test_readings_that_share_a_line_are_counted_and_that_is_said():
    run = look(json.dumps(READINGS) + "\n").run
    assert run.readings.treated.tolist() == pytest.approx([21.4, 21.5, 21.6, 21.7, 21.8, 21.9])
    assert run.remarks[0].startswith("JSON with several readings in a line, counted as line 1, 2 and so on: read time_s, treated_degC")


def test_a_cell_that_is_no_number_is_refused_in_its_line():
    readings = [*READINGS[:3], READINGS[3] | {"control_degC": "21.x"}, *READINGS[4:]]
    assert str(look(json.dumps(readings, indent=1)).question).startswith("pasted text, line 17, column 'control_degC': '21.x' is no number.")


@pytest.mark.parametrize(
    "text, message",
    [
        (json.dumps(READINGS, indent=1).replace('"time_s": 4,', '"time_s" 4,'), "line 12: This JSON is damaged here. Correct it in a copy"),
        ("[" * 100_000 + "\n", "line 1: This JSON is damaged here."),
        ('{"device": "bench 3",\n"battery": 90}\n', "line 1: This JSON holds no list of readings. Export the run as CSV"),
        ("[1, 2, 3,\n 4]\n", "line 1: This JSON holds no list of readings."),
    ],
)
def test_what_is_no_list_of_readings_is_refused(text, message):
    assert str(look(text).question).startswith(f"pasted text, {message}")


def test_json_has_a_budget(monkeypatch):
    monkeypatch.setattr(objects, "LARGEST_BYTES", 100)
    assert "at most 0 are read" in str(look(json.dumps(READINGS, indent=1)).question)


@pytest.mark.parametrize(
    "row, number, values",
    [("[4, 21,6, 21.3]", 3, 4), ("[4, 21.6]", 3, 2), ("[4, 21.6, [6, 21.7, 21.3]]", 3, 3)],
)
def test_a_row_of_json_with_other_values_than_the_rest_is_refused(row, number, values):
    rows = ["[0, 21.4, 21.3]", "[2, 21.5, 21.3]", row, "[8, 21.8, 21.4]", "[10, 21.9, 21.4]"]
    fault = look(f"[{', '.join(rows)}]\n").question
    assert str(fault) == (
        f"pasted text, line 1: Reading {number} in this JSON has {values} values, the others 3. "
        "Correct it in a copy of the file, or export the run again."
    )
