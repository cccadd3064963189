"""`course` as it is typed: made, checked, packed, opened; and the teacher's pages."""

import os
from argparse import Namespace

import pytest

from kit.bootstrap.options import read
from kit.bootstrap.places import COURSE
from kit.commands import lab as labs
from kit.commands.course import course, NO_HAND_IN
from kit.commands.lab import course_and_work, first_page, lessons_and_work
from kit.coursework import add_missing_lessons, TEACHERS


@pytest.fixture(autouse=True)
def nobodys_course(monkeypatch):
    monkeypatch.setenv(COURSE, "")


def typed(*words):
    return course(read(["course", *map(str, words)]))


def test_a_course_is_made_checked_and_packed(tmp_path, capsys):
    folder = tmp_path / "ours"
    assert typed("new", folder, "--lessons", "04", "00", "--title", "8b") == 0 and typed("add", folder, "20-our-lamp") == 0
    (folder / "course.toml").write_text('title = "8b"\nlessons = ["20-our-lamp"]\n')
    assert typed("check", folder) == 0
    said = capsys.readouterr().out
    assert "with 2 lessons" in said and said.endswith(f"20-our-lamp: nothing is missing.\nThe course can be packed.\n{NO_HAND_IN}\n")
    assert typed("pack", folder) == 0 and (tmp_path / "ours.zip").exists()
    text = (folder / "20-our-lamp.toml").read_text(encoding="utf-8")
    (folder / "20-our-lamp.toml").write_text(text.replace("minutes = 19", "minutes = 9"), encoding="utf-8")
    assert typed("check", folder) == 1 and capsys.readouterr().out.endswith(f"1 thing is missing or amiss.\n{NO_HAND_IN}\n")


def test_a_lesson_that_is_missing_or_unreadable_is_told_once_and_keeps_no_other_from_being_checked(tmp_path, capfd):
    folder = tmp_path / "ours"
    typed("new", folder, "--lessons", "12")
    assert "with 1 lesson. README" in capfd.readouterr().out
    (folder / "course.toml").write_text('title = "8b"\nlessons = ["07-missing", "12-write-it-up", "template"]\n')
    (folder / "12-write-it-up.toml").write_text("no = = toml")
    assert typed("check", folder) == 1
    told = capfd.readouterr()
    assert told.out.startswith("07-missing: \n  - course.toml names the lesson '07-missing', but there is no 07-missing.ipynb in ours.")
    assert told.out.count("can't be read") == 1 and told.out.endswith("template: nothing is missing.\n2 things are missing or amiss.\n")
    assert "WARNING" not in told.err


def test_what_cannot_be_done_is_a_sentence(tmp_path):
    with pytest.raises(SystemExit, match="is no course"):
        typed("check", tmp_path)
    with pytest.raises(SystemExit, match="No lesson fits 'moon'"):
        typed("new", tmp_path / "x", "--lessons", "moon")


def test_a_course_is_written_in_its_folder_and_learnt_in_one_of_its_own(tmp_path, monkeypatch):
    monkeypatch.setattr(labs, "own_folder", lambda: tmp_path / "kit")
    typed("new", tmp_path / "ours", "--lessons", "00")
    typed("pack", tmp_path / "ours")
    assert course_and_work(read(["lab", "--course", str(tmp_path / "ours")])) == (tmp_path / "ours", tmp_path / "ours")
    lessons, work = course_and_work(read(["lab", "--course", str(tmp_path / "ours.zip")]))
    assert lessons == tmp_path / "kit/my-courses/ours" and work == lessons / "my-work" and os.environ[COURSE] == str(lessons)
    assert add_missing_lessons(work, lessons) == ["00-your-first-run.ipynb", "contents.ipynb"]
    assert first_page(work, ["00-your-first-run.ipynb"], lessons) == "/lab/tree/contents.ipynb"
    with pytest.raises(SystemExit, match="is no course of the kit"):
        course_and_work(Namespace(course=tmp_path / "missing.zip", work=None))


def test_the_desk_knows_the_course_that_is_named_with_it(tmp_path):
    typed("new", tmp_path / "ours", "--lessons", "00")
    words = ["lab", "--teacher", "--course", str(tmp_path / "ours"), "--work", str(tmp_path / "desk")]
    assert lessons_and_work(read(words)) == (TEACHERS, tmp_path / "desk") and os.environ[COURSE] == str(tmp_path / "ours")
    assert lessons_and_work(read(["lab", "--teacher"]))[1].name == "my-class"


def test_the_teachers_pages_have_a_folder_of_their_own(tmp_path):
    assert read(["lab", "--teacher"]).work.name == "my-class" and read(["lab"]).work.name == "my-work"
    assert "desk.ipynb" in add_missing_lessons(tmp_path, TEACHERS) and first_page(tmp_path, [], TEACHERS) == "/lab/tree/desk.ipynb"
