"""A course made in a folder: its lessons open for writing, in the order that was wished; one's own runs; a lesson from the template."""

import json
import tomllib

import pytest

from kit import example_run
from kit.bootstrap.places import COURSE
from kit.course import add_lesson, lacks_of, new_course
from kit.coursework import LESSONS, TEACHERS, contents, course_named, page_of, read_lesson
from kit.examples import DATASETS, example_names
from kit.faults import Fault

CHOSEN = ("04-is-it-steady", "00-your-first-run")


@pytest.fixture
def course(tmp_path):
    """A course of two lessons in another order, with a run of the teacher's own."""
    run = tmp_path / "Our Lamp.csv"
    run.write_bytes((DATASETS / "class" / "chert.csv").read_bytes())
    return new_course(tmp_path / "ours", [LESSONS / f"{name}.ipynb" for name in CHOSEN], [run], "Class 8b")


def cells(path):
    return json.loads(path.read_text(encoding="utf-8"))["cells"]


def test_it_holds_the_lessons_in_order_the_template_the_settings_and_the_run(course):
    assert course_named(course).lessons == CHOSEN and course_named(course).title == "Class 8b"
    for name in ("contents.ipynb", "template.ipynb", "template.toml", "class-settings.toml", "README.md", "data/our-lamp.csv"):
        assert (course / name).is_file(), name
    assert (course / "class-settings.toml").read_bytes() == (TEACHERS / "class-settings.toml").read_bytes()


def test_every_text_can_be_changed(course):
    every = [cell for path in course.glob("*.ipynb") for cell in cells(path)]
    assert every and not [cell for cell in every if "editable" in cell["metadata"] or "deletable" in cell["metadata"]]


def test_a_folder_with_files_is_left_alone(tmp_path):
    (tmp_path / "kept.txt").write_text("mine")
    with pytest.raises(Fault, match="holds files already"):
        new_course(tmp_path, [])
    assert [path.name for path in tmp_path.iterdir()] == ["kept.txt"]


def test_a_run_that_cannot_be_read_is_said_before_anything_is_made(tmp_path):
    (tmp_path / "bad.csv").write_text("a,b\n1,2\n")
    with pytest.raises(Fault, match="bad.csv"):
        new_course(tmp_path / "ours", [], [tmp_path / "bad.csv"])
    assert not (tmp_path / "ours").exists()


def test_the_open_course_goes_before_the_kit(course, monkeypatch):
    text = (course / "04-is-it-steady.toml").read_text(encoding="utf-8")
    (course / "04-is-it-steady.toml").write_text(text.replace('title = "Is it steady?"', 'title = "May the gas come?"'), encoding="utf-8")
    monkeypatch.setenv(COURSE, str(course))
    assert read_lesson("04").title == "May the gas come?" and read_lesson("06").number == "06"
    assert example_run("Our lamp").kind == "measured" and example_run("basalt").kind == "simulated" and "our-lamp" in example_names()


def test_the_contents_page_keeps_the_courses_order(course, monkeypatch):
    monkeypatch.setenv(COURSE, str(course))
    ((title, entries),) = contents(course).units
    assert title == "Class 8b" and tuple(entry.outline.name for entry in entries) == CHOSEN


def test_a_lesson_of_ones_own_begins_as_the_template_with_its_own_number(course):
    path = add_lesson(course, "20-our-lamp")
    assert tomllib.loads(path.with_suffix(".toml").read_text(encoding="utf-8"))["number"] == "20"
    assert {cell["id"].split("-")[0] for cell in cells(path)} == {"20"} and '"template' not in path.read_text(encoding="utf-8")
    assert course_named(course).lessons == (*CHOSEN, "20-our-lamp") and lacks_of(path).sentences == ()


@pytest.mark.parametrize("name, words", [("our-lamp", "needs a name like"), ("../20-x", "needs a name like"), ("06-again", "already"), ("04-x", "already")])
def test_a_name_that_will_not_do_is_said(course, name, words):
    with pytest.raises(Fault, match=words):
        add_lesson(course, name)


LISTS = {"": "needs a line", "lessons = [": "can't be read", 'lessons = ["../x"]': "needs a line", "lessons = 7": "needs a line"}


@pytest.mark.parametrize("text, words", LISTS.items(), ids=["none", "torn", "outside", "a number"])
def test_a_list_that_cannot_be_used_is_said(course, text, words):
    (course / "course.toml").write_text(text)
    with pytest.raises(Fault, match=words):
        course_named(course)


def test_a_course_for_a_class_that_reads_short_texts_holds_those_alone(tmp_path):
    lesson = LESSONS / "00-your-first-run.ipynb"
    usual = read_lesson("00", tmp_path)
    (tmp_path / "class-settings.toml").write_text('[show]\nlanguage = "short"\n', encoding="utf-8")
    short = read_lesson("00", tmp_path)
    course = new_course(tmp_path / "ours", [lesson])
    assert read_lesson("00", course) == short != usual and lacks_of(course / lesson.name).sentences == ()
    assert [cell["source"] for cell in cells(course / lesson.name)] == [cell["source"] for cell in page_of(lesson, "short")["cells"]]
    (course / "class-settings.toml").write_text("", encoding="utf-8")
    assert read_lesson("00", course) == short and (course / "00-your-first-run.toml").read_text(encoding="utf-8").startswith("# Lesson 00: ")
