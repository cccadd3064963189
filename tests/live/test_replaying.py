"""A run written line by line: the whole of it in the end, one hand at a time, and none at a file that was taken away."""

import threading
import time

from kit.live import start_writing

WAIT_S = 20
LINES = [f"{second},20.0{second % 10}\n" for second in range(300)]


def text(mark):
    return f"elapsed_s,{mark}\n" + "".join(LINES)


def wait_for(true):
    begun = time.monotonic()
    while not true() and time.monotonic() - begun < WAIT_S:
        time.sleep(0.02)
    assert true()


def test_it_ends_with_the_whole_run(tmp_path):
    path = start_writing(text("once"), tmp_path / "run.csv", 600)
    wait_for(lambda: path.read_text(encoding="utf-8") == text("once"))


def test_a_file_that_is_begun_anew_has_one_writer(tmp_path):
    start_writing(text("first"), tmp_path / "run.csv", 200)
    path = start_writing(text("second"), tmp_path / "run.csv", 600)
    wait_for(lambda: len(path.read_text(encoding="utf-8").splitlines()) >= 301)
    assert path.read_text(encoding="utf-8") == text("second")


def test_a_file_that_was_taken_away_is_not_made_again(tmp_path):
    path = start_writing(text("gone"), tmp_path / "run.csv", 60)
    wait_for(lambda: len(path.read_text(encoding="utf-8").splitlines()) > 5)
    path.unlink()
    wait_for(lambda: str(path) not in {each.name for each in threading.enumerate()})
    assert not path.exists()
