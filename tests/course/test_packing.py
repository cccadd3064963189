"""A course as one zip: nothing of the teacher's work in it, nothing strange out of it, and the same lessons when it is opened."""

import json
import zipfile

import pytest

from kit.course import add_lesson, new_course, pack_course, unpack_course
from kit.coursework import Answer, LESSONS, add_answer, answers_path, course_named
from kit.examples import DATASETS
from kit.faults import Fault


@pytest.fixture
def course(tmp_path):
    made = new_course(tmp_path / "ours", [LESSONS / "00-your-first-run.ipynb"], [DATASETS / "class" / "chert.csv"])
    add_lesson(made, "20-our-lamp")
    add_answer(answers_path("00", made), Answer("00.warmer", "prediction", {"words": "secret"}))
    for name in ("my-work/00-your-first-run.ipynb", "marks/abc.json", "runs/x.json", "reports/report.html", ".jupyter/x", "notes.txt"):
        (made / name).parent.mkdir(exist_ok=True)
        (made / name).write_text("secret")
    return made


def worked_in(path):
    """Leave outputs, a trace of the machine and an answer in a notebook, as a teacher who tries it does."""
    book = json.loads(path.read_text(encoding="utf-8"))
    book["metadata"]["language_info"] = {"version": "3.11.2", "secret": 1}
    for cell in book["cells"]:
        if cell["cell_type"] == "code":
            cell.update(outputs=[{"output_type": "stream", "name": "stdout", "text": ["secret"]}], execution_count=7)
    book["cells"][3]["metadata"]["tags"] = ["answer"]
    book["cells"][3]["source"] = ["secret"]
    path.write_text(json.dumps(book), encoding="utf-8")


def test_it_holds_the_course_and_nothing_that_the_teacher_did(course):
    worked_in(course / "00-your-first-run.ipynb")
    with zipfile.ZipFile(pack_course(course)) as archive:
        names, texts = archive.namelist(), [archive.read(name).decode() for name in archive.namelist()]
    assert sorted(names) == sorted([
        "course.toml", "contents.ipynb", "contents.toml", "00-your-first-run.ipynb", "00-your-first-run.toml", "20-our-lamp.ipynb",
        "20-our-lamp.toml", "class-settings.toml", "data/chert.csv",
    ])  # fmt: skip
    assert not [text for text in texts if "secret" in text or "For you, the teacher" in text]


def test_texts_are_closed_again_and_outputs_gone(course):
    worked_in(course / "00-your-first-run.ipynb")
    with zipfile.ZipFile(pack_course(course)) as archive:
        cells = json.loads(archive.read("00-your-first-run.ipynb"))["cells"]
    assert all(cell["metadata"]["deletable"] is False for cell in cells)
    assert all(cell["metadata"]["editable"] is False for cell in cells if cell["cell_type"] == "markdown" and cell["metadata"]["tags"] != ["answer"])
    assert all(cell["outputs"] == [] and cell["execution_count"] is None for cell in cells if cell["cell_type"] == "code")


def test_a_packed_lesson_is_the_kits_own_letter_by_letter(course):
    with zipfile.ZipFile(pack_course(course)) as archive:
        assert json.loads(archive.read("00-your-first-run.ipynb")) == json.loads((LESSONS / "00-your-first-run.ipynb").read_text(encoding="utf-8"))


def test_it_opens_again_and_a_newer_one_takes_its_place_but_not_the_learners_work(course, tmp_path):
    home = tmp_path / "home"
    made = unpack_course(pack_course(course), home)
    (made / "my-work").mkdir()
    (made / "my-work" / "00-your-first-run.ipynb").write_text("mine")
    text = (course / "20-our-lamp.toml").read_text(encoding="utf-8").replace("Air instead of gas", "Our own lamp")
    (course / "20-our-lamp.toml").write_text(text, encoding="utf-8")
    again = unpack_course(pack_course(course), home)
    assert again == made == home / "ours" and "Our own lamp" in (made / "20-our-lamp.toml").read_text(encoding="utf-8")
    assert (made / "my-work" / "00-your-first-run.ipynb").read_text() == "mine" and course_named(made).lessons[1] == "20-our-lamp"


STRANGE = ("../out.ipynb", "/etc/out.toml", "sub/x.ipynb", "x.py", "data/x.pkl-1", "data/../../x.csv", "run.sh", "my-work/x.ipynb")


@pytest.mark.parametrize("name", STRANGE)
def test_a_zip_with_anything_else_in_it_is_refused_whole(course, tmp_path, name):
    path = pack_course(course)
    with zipfile.ZipFile(path, "a") as archive:
        archive.writestr(name, "x")
    with pytest.raises(Fault):
        unpack_course(path, tmp_path / "home")
    assert not (tmp_path / "home").exists() and not (tmp_path / "out.ipynb").exists()


def test_no_course_is_a_sentence(tmp_path):
    (tmp_path / "else.zip").write_text("no zip")
    with pytest.raises(Fault, match="can't be opened as a zip file"):
        unpack_course(tmp_path / "else.zip", tmp_path)
    with zipfile.ZipFile(tmp_path / "empty.zip", "w") as archive:
        archive.writestr("x.toml", "")
    with pytest.raises(Fault, match="there is no course.toml in it"):
        unpack_course(tmp_path / "empty.zip", tmp_path)
    with pytest.raises(Fault, match="can't be opened as a zip file"):
        unpack_course(tmp_path / "missing.zip", tmp_path)


def test_a_missing_lesson_is_said_when_it_is_packed(course):
    (course / "20-our-lamp.ipynb").unlink()
    with pytest.raises(Fault, match="names the lesson '20-our-lamp', but there is no"):
        pack_course(course)
