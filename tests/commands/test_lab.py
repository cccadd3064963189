"""`lab`: the port, the settings, the page. The server itself is started in tests/browser."""

import os
import socket
from tempfile import TemporaryDirectory

import pytest

from kit.commands import lab

FIRST = "00-your-first-run.ipynb"


@pytest.fixture
def taken():
    """A port that somebody listens at."""
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        yield other.getsockname()[1]


def test_a_port_that_is_asked_for_and_taken_is_a_sentence(taken):
    with pytest.raises(SystemExit) as end:
        lab.free_port(taken)
    assert str(end.value) == f"Port {taken} is taken or not allowed. Choose another number after --port, or leave --port out."


def test_without_a_wish_the_next_free_port_is_taken_and_said(taken, monkeypatch, capsys):
    monkeypatch.setattr(lab, "PORTS", [taken, 0])  # 0: any free one
    assert lab.free_port() == 0
    assert capsys.readouterr().out == f"Port {taken} is taken, perhaps by another JupyterLab. Using 0.\n"


def test_when_every_port_is_taken_it_says_what_to_type(taken, monkeypatch):
    monkeypatch.setattr(lab, "PORTS", [taken])
    with pytest.raises(SystemExit) as end:
        lab.free_port()
    assert str(end.value) == f"The ports {taken} to {taken} are all taken. Name a free one: --port 9500"


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such files")
def test_kernels_are_spoken_to_through_files_unless_there_can_be_none(tmp_path):
    long = tmp_path / ("x" * 60)
    long.mkdir()
    with TemporaryDirectory() as short:
        assert (lab.speaks(short), os.listdir(short)) == ("ipc", [])
    assert lab.speaks(f"{short}/gone") == lab.speaks(long) == "tcp"


def test_no_jupyter_setting_of_the_persons_own_is_used(tmp_path, monkeypatch):
    monkeypatch.setattr(os, "environ", {"JUPYTER_TOKEN": "mine", "JUPYTERLAB_DIR": "/mine", "HOME": "/mine", "IPYTHONDIR": "/mine"})
    lab.use_own_settings(tmp_path / "my-work", tmp_path / "passing")
    assert os.environ.pop("HOME") == "/mine" and "JUPYTER_TOKEN" not in os.environ and "JUPYTERLAB_DIR" not in os.environ
    ours = (str(tmp_path), str(lab.SETTINGS))
    assert len(os.environ) == 7 and all(place.startswith(ours) for place in os.environ.values())


@pytest.fixture
def folders(tmp_path):
    """(lessons, work): two lessons and the contents, and a work folder that holds none of them."""
    lessons, work = tmp_path / "lessons", tmp_path / "my-work"
    for path in (lessons / "04-is-it-steady.ipynb", lessons / FIRST, lessons / "contents.ipynb", work / "00 my notes.ipynb"):
        path.parent.mkdir(exist_ok=True)
        path.touch()
    return lessons, work


def test_the_first_start_opens_the_first_lesson_and_later_ones_the_contents(folders):
    lessons, work = folders
    for lesson in lessons.iterdir():
        (work / lesson.name).touch()
    assert lab.first_page(work, [FIRST, "contents.ipynb"], lessons) == f"/lab/tree/{FIRST}"
    assert lab.first_page(work, [], lessons) == lab.first_page(work, ["05-new.ipynb"], lessons) == "/lab/tree/contents.ipynb"


def test_without_lessons_the_file_list_is_opened(folders):
    lessons, work = folders
    assert lab.first_page(work, [], lessons) == "/lab"
