"""The window marker as Python sees it: what a view asks, what it is answered, what is kept on disk."""

from itertools import count

import numpy as np
import pytest

from kit.analysis.effect.paired import paired_effect, quick_warming
from kit.analysis.effect.levels import difference_levels
from kit.faults import Fault
from kit.coursework.runs.marks import kept_marks, marks_path
from kit.records.windows import Windows
from kit.widgets.marker.marker import mark_windows, starting_windows
from tests.widgets.invented import invented_run

PLACED = Windows((10, 11), (11, 12), (20.5, 21.5))
NUMBERS = count(1)


@pytest.fixture
def run():
    return invented_run()


@pytest.fixture
def marker(run, tmp_path):
    return mark_windows(run, folder=tmp_path)


def ask(marker, kind, windows=None, gesture="drag 1"):
    """What a view sends: (edges in seconds are sent as the browser has them)."""
    number = f"view:{next(NUMBERS)}"
    edges = {} if windows is None else {"edges": list(windows.seconds)}
    marker._handle_custom_msg({"kind": kind, "gesture": gesture, "number": number, **edges}, [])
    assert marker.answer["to"] == number
    return marker.answer


def test_it_opens_plainly_not_right_and_says_so(marker, run):
    assert max(marker.windows.seconds) <= 300
    assert marker.answer["trouble"] == "Nobody has placed these windows yet. Move all three to where you think they belong."
    assert marker.answer["sentence"] == str(paired_effect(run, marker.windows)) and marker.answer["settled"]


@pytest.mark.parametrize(("readings", "minutes"), [(646, 21.5), (22, 21), (4, 3), (100, 990), (100, 0.1)])
def test_it_opens_inside_records_of_every_length(readings, minutes, tmp_path):
    run = invented_run(readings, minutes)
    marker = mark_windows(run, folder=tmp_path)
    widths = np.diff(marker.windows.seconds)[::2]
    assert 0 < marker.edges[0] and marker.edges[-1] < run.readings.index[-1]
    assert (widths >= marker.picture["least"] - 1e-6).all()


def test_a_move_gives_the_plain_value_and_no_old_range(marker, run):
    answer = ask(marker, "move", PLACED)
    assert answer["value"] == f"{quick_warming(run, PLACED):.2f} °C" and answer["trouble"] == ""
    assert not answer["settled"] and "sentence" not in answer and marker.effect is None
    assert marker.windows == PLACED


def test_the_arrow_drawn_is_as_high_as_the_value(marker, run):
    before, after = ask(marker, "move", PLACED)["levels"]
    assert (before, after) == difference_levels(run, PLACED)
    assert after - before == pytest.approx(quick_warming(run, PLACED), abs=1e-9)


def test_the_range_follows_when_the_hand_rests(marker, run):
    ask(marker, "move", PLACED)
    answer = ask(marker, "rest", PLACED)
    expected = paired_effect(run, PLACED)
    assert answer["settled"] and answer["sentence"] == str(expected) and marker.effect.warming == expected.warming
    assert answer["condition"] == expected.condition
    assert answer["value"] == expected.warming.value_text


def test_nothing_is_written_before_the_first_move(marker, run, tmp_path):
    assert not (tmp_path / "marks").exists()
    ask(marker, "rest", PLACED)
    assert kept_marks(run, tmp_path) == PLACED


def test_marks_come_back_on_reopening_before_any_start(run, marker, tmp_path):
    ask(marker, "rest", PLACED)
    assert mark_windows(run, folder=tmp_path).windows == PLACED
    assert mark_windows(run, start=Windows((1, 2), (3, 4), (5, 6)), folder=tmp_path).windows == PLACED


def test_a_stated_start_is_taken_and_returned_to(run, tmp_path):
    start = Windows((6, 7), (8, 9), (15, 16))
    marker = mark_windows(run, start=start, folder=tmp_path)
    assert marker.windows == start
    ask(marker, "rest", PLACED)
    ask(marker, "again")
    assert marker.windows == start and kept_marks(run, tmp_path) == start


def test_undo_takes_back_a_whole_drag_and_redo_brings_it_again(marker, run, tmp_path):
    half_way = Windows((5, 6), (11, 12), (20.5, 21.5))
    ask(marker, "move", half_way)
    assert ask(marker, "rest", PLACED)["undo"]
    answer = ask(marker, "undo", gesture="button 1")
    assert marker.windows == starting_windows(run) == kept_marks(run, tmp_path) and answer["redo"] and not answer["undo"]
    assert ask(marker, "redo", gesture="button 2")["sentence"] == str(paired_effect(run, PLACED)) and marker.windows == PLACED


def test_observers_hear_each_move_once_and_may_set_the_windows(marker):
    heard = []
    marker.observe(lambda change: heard.append(change.new), "windows")
    ask(marker, "move", PLACED)
    ask(marker, "rest", PLACED)
    marker.windows = Windows((9, 10), (11, 12), (20.5, 21.5))
    assert heard == [PLACED, marker.windows] and marker.edges[:2] == [540, 600]
    assert marker.answer["settled"] and marker.answer["undo"]


def test_an_observer_that_fails_is_told_in_view_and_the_number_goes_on(marker):
    def fails(change):
        raise RuntimeError("no such thing")

    marker.observe(fails, "windows")
    answer = ask(marker, "move", PLACED)
    assert answer["trouble"] == (
        "The kit met something it did not expect (RuntimeError: no such thing). Your work is kept. Load this page again."
    )
    assert answer["value"] == "1.53 °C"


def test_windows_outside_the_record_are_refused_by_name(marker):
    with pytest.raises(Fault) as fault:
        marker.windows = Windows((10, 11), (11, 12), (20.5, 30))
    assert str(fault.value) == "The response ends at 30 min 0 s, but the record of basalt-like ends at 21 min 30 s. Move it back."
    with pytest.raises(Fault) as fault:
        marker.windows = Windows((-1, 11), (11, 12), (20.5, 21))
    assert str(fault.value) == "The baseline starts before the record of basalt-like begins. Start it at 0 minutes or later."


def test_windows_with_too_few_readings_say_so_as_they_move(tmp_path):
    marker = mark_windows(invented_run(22, 21), folder=tmp_path)
    narrow = ask(marker, "move", Windows((9.5, 10.5), (11, 12), (19, 21)))
    assert narrow["trouble"] == "The baseline holds 1 reading of both vessels. Make it wider."
    answer = ask(marker, "move", Windows((9, 10.5), (11, 12), (19.2, 19.8)))
    assert answer["trouble"] == "The response holds no reading of both vessels. Make it wider." and answer["value"] == "no number yet"
    assert ask(marker, "rest", Windows((9, 10.5), (11, 12), (19.2, 19.8)))["settled"]


def test_marks_that_cannot_be_written_are_told_and_the_number_is_given(marker, tmp_path):
    (tmp_path / "marks").write_text("a file where the folder should be")
    answer = ask(marker, "rest", PLACED)
    assert answer["trouble"].startswith("Your marks could not be written to ") and marker.effect


def test_damaged_marks_are_set_aside_and_told(run, tmp_path):
    path = marks_path(run, tmp_path)
    path.parent.mkdir()
    path.write_text("not JSON")
    marker = mark_windows(run, folder=tmp_path)
    assert marker.windows == starting_windows(run)
    assert marker.answer["trouble"] == (
        f"The marks kept for basalt-like could not be read. Their file is now {path.stem}.damaged. Mark the windows again."
    )


def test_marks_stay_where_the_notebook_was_opened(run, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    marker = mark_windows(run)
    (tmp_path / "elsewhere").mkdir()
    monkeypatch.chdir(tmp_path / "elsewhere")
    ask(marker, "rest", PLACED)
    assert kept_marks(run, tmp_path) == PLACED


def test_windows_that_miss_the_recorded_gas_are_named_first(marker, tmp_path):
    missing = "Your perturbation window does not hold the moment the gas went in yet."
    assert ask(marker, "move", Windows((5, 6), (7, 8), (20.5, 21.5)))["trouble"] == marker.misplaced == missing
    assert ask(marker, "rest", Windows((5, 6), (7, 8), (20.5, 21.5)))["trouble"] == missing
    assert ask(marker, "rest", PLACED)["trouble"] == marker.misplaced == ""
    without_gas = mark_windows(invented_run(gas=False), folder=tmp_path)
    assert ask(without_gas, "rest", Windows((5, 6), (7, 8), (20.5, 21.5)))["trouble"] == without_gas.misplaced == ""


@pytest.mark.parametrize(
    ("windows", "said"),
    [
        (((0, 20.5), (20.6, 20.9), (21, 21.5)), "The baseline takes in nearly the whole record, not only the quiet time just before the change."),
        (((0, 0.5), (0.5, 21), (21, 21.5)), "The perturbation takes in nearly the whole record, not only the change."),
        (((0, 0.5), (0.5, 1), (1, 21.5)), "The response takes in nearly the whole record, not only the time of the result."),
    ],
)
def test_a_window_over_nearly_the_whole_record_is_told_that_its_name_does_not_fit(windows, said, tmp_path):
    """Without a gas trace nothing else would say so."""
    marker = mark_windows(invented_run(gas=False), folder=tmp_path)
    assert ask(marker, "rest", Windows(*windows))["trouble"] == f"{said} Make it narrower."


def test_a_fresh_copy_of_a_lesson_begins_unmarked_while_the_first_goes_on(run, tmp_path, monkeypatch):
    def opened_in(name):
        monkeypatch.setenv("JPY_SESSION_NAME", str(tmp_path / f"{name}.ipynb"))
        return mark_windows(run, folder=tmp_path)

    opened_in("00-your-first-run").windows = PLACED
    assert opened_in("00-your-first-run-2").windows == starting_windows(run)
    assert opened_in("00-your-first-run").windows == PLACED == kept_marks(run, tmp_path)
