"""The lesson's folder is deleted while its notebook is open, and a cell runs again: a sentence, never a traceback."""

import os

import pytest

import kit
from kit.coursework import own_runs
from kit.faults import Fault
from kit.settings import class_settings
from kit.storage import GONE


@pytest.fixture
def nowhere(tmp_path, monkeypatch):
    """A working folder that is there no more."""
    before, folder = os.getcwd(), tmp_path / "my-work"
    folder.mkdir()
    monkeypatch.chdir(folder)
    folder.rmdir()
    yield
    os.chdir(before)


@pytest.mark.skipif(os.name == "nt", reason="Windows does not delete a folder in use")
@pytest.mark.parametrize(
    "cell",
    [
        lambda: kit.predict("00.warmer"),
        lambda: kit.recall("00.warmer"),
        lambda: kit.quiz("00"),
        lambda: kit.note("00.claim"),
        lambda: kit.bring_in(),
        lambda: kit.mark_windows(kit.example_run("basalt")),
        lambda: kit.make_report(),
        lambda: kit.follow("run.csv"),
        own_runs,
    ],
)
def test_every_cell_says_what_happened(nowhere, cell):
    with pytest.raises(Fault) as told:
        cell()
    assert str(told.value) == GONE


def test_reading_and_the_settings_go_on(nowhere):
    assert class_settings()["tolerance_c_per_min"] > 0
    with pytest.raises(Fault, match="There is no such file"):
        kit.read_run("run.csv")
