"""The live view: what came so far, its steadiness, and an end; it never keeps the notebook waiting."""

import time
from types import SimpleNamespace

import numpy as np
import pytest

from kit import follow, follow_serial
from kit.analysis.steady.steadiness import check_steady
from kit.faults import Fault
from kit.widgets.live import following as live
from tests.widgets.parts import block_of, buttons_of, press

HEAD = "Time (s),Treated (°C),Control (°C)\n"


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def following(folder):
    """`following(**named)` follows logger.csv and looks often; ended with the test."""
    views = []

    def start(**named):
        views.append(follow(folder / "logger.csv", every_s=0.01, **named))
        return views[-1]

    yield start
    for each in views:
        each.close()


def minutes(first, last):
    noise = np.random.default_rng(3).normal(0, 0.02, (2, 240))
    return "".join(f"{10 * k},{21.5 + noise[0, k]:.3f},{21 + noise[1, k]:.3f}\n" for k in range(6 * first, 6 * last))


def wait_for(condition):
    for _ in range(1000):
        if condition():
            return
        time.sleep(0.02)
    raise AssertionError("nothing came in 20 s")


def test_readings_and_verdict_follow_the_file(following, folder):
    view = following(over_min=12, tolerance_c_per_min=0.02)
    wait_for(lambda: block_of(view, "trouble"))
    assert block_of(view, "trouble")["text"] == "There is no file logger.csv yet. Start the logger, or check the name."
    with pytest.raises(Fault) as caught:
        view.run
    assert str(caught.value) == "There is no run yet. Wait until both vessels have two readings, then run this cell again."
    (folder / "logger.csv").write_text(HEAD + minutes(0, 3), "utf-8")
    wait_for(lambda: block_of(view, "steady"))
    assert block_of(view, "steady")["word"] == "cannot tell"
    with open(folder / "logger.csv", "a", encoding="utf-8") as file:
        file.write(minutes(3, 30))
    wait_for(lambda: block_of(view, "length")["text"].startswith("29.8 min recorded, 180 readings. The last came at "))
    found = check_steady(view.run, over_min=12, tolerance_c_per_min=0.02)
    assert block_of(view, "steady")["word"] == found.verdict == "steady"
    assert block_of(view, "steady")["text"].startswith("Over 12 min the difference drifted by no more than ")
    assert block_of(view, "last")["pairs"][0] == ["treated", f"{view.run.readings['treated'].iloc[-1]:.2f} °C"]
    assert block_of(view, "files")["text"] == "All that came is in received/logger.csv."


def test_what_the_first_lines_leave_open_is_shown_and_raised(following, folder):
    (folder / "logger.csv").write_text("t [min]|Probe 1 [K]|Probe 2 [K]\n0|294.5|294.1\n1|295.4|294.9\n", "utf-8")
    view = following()
    wait_for(lambda: block_of(view, "state") and "treated" in block_of(view, "state")["text"])
    question = (
        "logger.csv: Which column is the treated vessel? Say treated='Probe 1 [K]' or treated='Probe 2 [K]'. "
        "Which column is the control vessel? Say control='Probe 1 [K]' or control='Probe 2 [K]'. "
        "One call settles all, for example: read_run(…, treated='Probe 1 [K]', control='Probe 2 [K]')."
    )
    assert block_of(view, "state")["text"] == f"No run yet. {question}"
    with pytest.raises(Fault) as caught:
        view.run
    assert str(caught.value) == question


def test_stop_ends_it_and_says_how_to_go_on(following, folder):
    (folder / "logger.csv").write_text(HEAD + minutes(0, 2), "utf-8")
    view = following()
    wait_for(lambda: view.so_far and view.so_far.run)
    press(view, "stop")
    assert not view._thread.is_alive() and buttons_of(view) == []
    assert block_of(view, "end")["text"].endswith("What came is kept. Run this cell again to go on.") and len(view.run.readings) == 12


def test_it_ends_with_its_last_view_but_not_while_a_page_is_loaded_anew(following, monkeypatch):
    passing = []  # what happens once a page has had the time to come back

    def timer(seconds, act):
        passing.append(act)
        return SimpleNamespace(start=lambda: None)

    monkeypatch.setattr(live, "Timer", timer)
    view = following()
    for each in ("seen", "left", "seen"):
        press(view, each)
    passing.pop()()
    assert not view._stopped.is_set()
    press(view, "left")
    passing.pop()()
    view._thread.join(10)
    assert not view._thread.is_alive()


def test_running_the_cell_again_ends_the_earlier_view(following):
    first, second = following(), following()
    assert not first._thread.is_alive() and second._thread.is_alive()


def test_closing_ends_it(following):
    view = following()
    view.close()
    view._thread.join(10)
    assert not view._thread.is_alive()


def test_a_fault_ends_it_in_words(following, folder):
    (folder / "logger.csv").mkdir()
    view = following()
    view._thread.join(10)
    expected = "logger.csv: This is a folder, not a file. Name one file in it, or read them all with read_class."
    assert block_of(view, "end")["text"] == expected


def test_a_setting_that_cannot_be_is_said_in_place_of_the_verdict(following, folder):
    (folder / "logger.csv").write_text(HEAD + minutes(0, 2), "utf-8")
    view = following(over_min=-1)
    wait_for(lambda: block_of(view, "steady"))
    assert block_of(view, "steady")["text"] == "over_min can't be -1. Give a positive number."


def test_a_port_without_the_library_says_so_in_the_view(monkeypatch):
    monkeypatch.setitem(__import__("sys").modules, "serial", None)
    view = follow_serial("COM3")
    view._thread.join(10)
    assert block_of(view, "end")["text"] == (
        "Reading from a serial port needs the package pyserial. It belongs to the kit: stop, and start again with python3 -m kit lab."
    )
