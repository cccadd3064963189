"""What the server tells the page of a notebook, and that it looks nowhere but in the learner's folder."""

import json
from types import SimpleNamespace

import pytest
from tornado.web import HTTPError

from kit.coursework import Answer, add_answer, answers_beside
from kit.jupyter.server import asked_for, how_far
from kit.records import Windows
from kit.widgets.marker import mark_windows
from tests.widgets.invented import invented_run


def request(root, path, cell="00-title"):
    given = {"path": path, "cell": cell}
    return SimpleNamespace(contents_manager=SimpleNamespace(root_dir=str(root)), get_query_argument=given.__getitem__)


def test_a_notebook_is_found_by_its_first_cell_whatever_its_name(tmp_path):
    outline, notebook = asked_for(request(tmp_path, "deep/my try.ipynb"))
    assert outline.name == "00-your-first-run" and notebook == tmp_path / "deep" / "my try.ipynb"


@pytest.mark.parametrize("path", ["../outside.ipynb", "/../../etc/x.ipynb", "a/../../x.ipynb"])
def test_nothing_is_looked_for_outside_the_folder(path, tmp_path):
    (tmp_path / "root").mkdir()
    with pytest.raises(HTTPError) as refused:
        asked_for(request(tmp_path / "root", path))
    assert refused.value.status_code == 404


def test_another_notebook_is_no_lesson(tmp_path):
    assert asked_for(request(tmp_path, "x.ipynb", "none of ours"))[0] is None


def test_texts_that_cannot_be_read_are_no_progress(tmp_path):
    (tmp_path / "00-mine.toml").write_text("title = unquoted", encoding="utf-8")
    outline, notebook = asked_for(request(tmp_path, "00-your-first-run.ipynb"))
    assert how_far(outline, notebook) == {"progress": "", "begun": False, "next": None}


def test_it_says_how_far_the_learner_is_in_that_file_and_no_other(tmp_path):
    first, second = (tmp_path / name for name in ("00-your-first-run.ipynb", "00-your-first-run-2.ipynb"))
    add_answer(answers_beside(first), Answer("00.warmer", "prediction"))
    told = [how_far(asked_for(request(tmp_path, path.name))[0], path) for path in (first, second)]
    assert told[0] == {
        "progress": "kept 1 of 2 predictions, 0 of 5 questions",
        "begun": True,
        "next": {"step": 6, "title": "mark them"},
    }
    assert (told[1]["begun"], told[1]["next"]["step"]) == (False, 3)


def test_a_marker_is_done_when_a_window_has_been_moved_and_not_before(tmp_path, monkeypatch):
    notebook = tmp_path / "00-your-first-run.ipynb"
    monkeypatch.setenv("JPY_SESSION_NAME", str(notebook))
    outline, _ = asked_for(request(tmp_path, notebook.name))
    add_answer(answers_beside(notebook), Answer("00.warmer", "prediction"))
    marker = mark_windows(invented_run(), folder=tmp_path)
    assert how_far(outline, notebook)["next"]["step"] == 6
    marker.windows = Windows.of_perturbation(11)
    assert how_far(outline, notebook)["next"] == {"step": 8, "title": "look again at your prediction"}


def test_looking_changes_no_file_even_a_damaged_one(tmp_path):
    notebook = tmp_path / "00-your-first-run.ipynb"
    answers_beside(notebook).write_text("{ torn")
    assert not how_far(asked_for(request(tmp_path, notebook.name))[0], notebook)["begun"]
    assert [path.read_text() for path in tmp_path.iterdir()] == ["{ torn"]
    json.dumps(how_far(asked_for(request(tmp_path, notebook.name))[0], notebook))
