"""Marks of a run: found again by the run's own bytes, never on another run, never half written."""

import errno
import json
import os

import pytest

from kit.faults import Fault
from kit.coursework.runs.marks import is_marked, keep_marks, kept_marks, marked_hashes, marks_made_here, marks_path
from kit.records.windows import Windows
from tests.widgets.invented import invented_run

PLACED = Windows((10, 11), (11, 12), (20.5, 21.5))


def test_marks_come_back_for_the_run_they_were_made_on(tmp_path):
    keep_marks(invented_run(), PLACED, tmp_path)
    assert kept_marks(invented_run(name="renamed file"), tmp_path) == PLACED


def test_another_run_has_no_marks(tmp_path):
    keep_marks(invented_run(), PLACED, tmp_path)
    assert kept_marks(invented_run(readings=600), tmp_path) is None


def test_a_file_under_the_name_of_another_run_is_set_aside(tmp_path):
    mine, other = invented_run(), invented_run(readings=600)
    path = marks_path(mine, tmp_path)
    PLACED.save(path, other)
    with pytest.raises(Fault):
        kept_marks(mine, tmp_path)
    assert not path.exists() and json.loads(path.with_suffix(".damaged").read_text())["sha256"] == other.source.sha256


def test_damaged_marks_are_set_aside_each_under_its_own_name(tmp_path):
    run = invented_run()
    for expected in ("damaged", "damaged-2"):
        marks_path(run, tmp_path).parent.mkdir(exist_ok=True)
        marks_path(run, tmp_path).write_text('{"baseline": [1')
        with pytest.raises(Fault) as fault:
            kept_marks(run, tmp_path)
        name = f"{run.source.sha256[:16]}.{expected}"
        assert str(fault.value) == f"The marks kept for basalt-like could not be read. Their file is now {name}. Mark the windows again."
    assert len(list((tmp_path / "marks").iterdir())) == 2


def test_a_disk_that_refuses_is_named(tmp_path):
    (tmp_path / "marks").write_text("a file where the folder should be")
    run = invented_run()
    with pytest.raises(Fault) as fault:
        keep_marks(run, PLACED, tmp_path)
    assert str(fault.value) == (
        f"Your marks could not be written to {run.source.sha256[:16]}.json in the folder marks ({os.strerror(errno.EEXIST)}). "
        "Make room or allow writing there, then move any edge once."
    )


def test_nothing_but_the_marks_is_left_in_the_folder(tmp_path):
    for _ in range(3):
        keep_marks(invented_run(), PLACED, tmp_path)
    assert [each.name for each in (tmp_path / "marks").iterdir()] == [f"{invented_run().source.sha256[:16]}.json"]


def in_notebook(monkeypatch, folder, name):
    monkeypatch.setenv("JPY_SESSION_NAME", str(folder / f"{name}.ipynb"))


def test_a_fresh_copy_has_no_marks_and_the_first_one_keeps_its_own(tmp_path, monkeypatch):
    run, later = invented_run(), Windows((9, 10), (11, 12), (20, 21))
    in_notebook(monkeypatch, tmp_path, "00-your-first-run")
    keep_marks(run, PLACED, tmp_path)
    in_notebook(monkeypatch, tmp_path, "00-your-first-run-2")
    assert marks_made_here(run, tmp_path) is None and kept_marks(run, tmp_path) == PLACED
    keep_marks(run, later, tmp_path)
    assert marks_made_here(run, tmp_path) == later == kept_marks(run, tmp_path)
    in_notebook(monkeypatch, tmp_path, "00-your-first-run")
    assert marks_made_here(run, tmp_path) == PLACED


def test_two_notebooks_at_once_never_write_over_each_other_and_the_newest_counts(tmp_path, monkeypatch):
    run, other = invented_run(), Windows((9, 10), (11, 12), (20, 21))
    for turn, name in enumerate(("00-your-first-run", "06-windows-and-effect") * 2, 1):
        in_notebook(monkeypatch, tmp_path, name)
        keep_marks(run, other if name[:2] == "06" else PLACED, tmp_path)
        os.utime(marks_path(run, tmp_path), ns=(turn, turn))
    assert kept_marks(run, tmp_path) == other and len(list((tmp_path / "marks").iterdir())) == 2
    assert marked_hashes(tmp_path) == {run.source.sha256[:16]}


def test_marks_from_before_each_notebook_had_its_own_stay_those_of_the_first_copy(tmp_path, monkeypatch):
    run = invented_run()
    keep_marks(run, PLACED, tmp_path)
    in_notebook(monkeypatch, tmp_path, "00-your-first-run")
    assert marks_made_here(run, tmp_path) == PLACED
    in_notebook(monkeypatch, tmp_path, "00-your-first-run-2")
    assert marks_made_here(run, tmp_path) is None


def test_a_notebook_is_marked_by_what_was_marked_in_it(tmp_path, monkeypatch):
    """Marks of no notebook were made before each had its own: they are the first copy's, too."""
    first, copy = tmp_path / "00-your-first-run.ipynb", tmp_path / "00-your-first-run-2.ipynb"
    assert not is_marked(first)
    in_notebook(monkeypatch, tmp_path, copy.stem)
    keep_marks(invented_run(), PLACED, tmp_path)
    assert is_marked(copy) and not is_marked(first)
    monkeypatch.delenv("JPY_SESSION_NAME")
    keep_marks(invented_run(), PLACED, tmp_path)
    assert is_marked(first)
