"""The guide as one page: every text and sheet is in it, it needs nothing from outside, and its tables say what lessons say."""

import re
from argparse import Namespace

import pytest

from kit.bootstrap.options import read
from kit.bootstrap.places import CHECKOUT
from kit.commands import guide as command
from kit.coursework import LESSONS, read_lesson, TEACHERS
from kit.sheets import guide_page, sheet_titles
from tests.lessons.reading import GUIDE, NOTEBOOKS, number, steps


@pytest.fixture(scope="module")
def html():
    return guide_page()


def chapters(html):
    return re.findall(r'<section id="(part-\d+)"[^>]*><h2>(.*?)</h2>', html, re.DOTALL)


def test_every_text_and_every_sheet_is_a_chapter_and_stands_in_the_contents(html):
    headings = [head for path in TEACHERS.glob("*.md") for head in re.findall(r"^## (.+)$", path.read_text(encoding="utf-8"), re.MULTILINE)]
    told = re.sub(r"<[^>]+>", "", " | ".join(heading for _, heading in chapters(html)))
    assert len(headings) > 20 and all(head.replace("*", "") in told for head in headings)
    assert all(f"Sheet: {title}" in told for title in sheet_titles().values())
    assert [f"#{place}" for place, _ in chapters(html)] == re.findall(r'<a href="(#part-\d+)"', html)


def test_it_asks_nothing_of_a_network_and_nothing_in_it_runs(html):
    assert not re.search(r"<script|<link|\bsrc=|@import|url\(|<iframe|\bon\w+=", html)
    assert set(re.findall(r'https?://[^"\s<]+', html)) <= {"http://www.w3.org/2000/svg"}


def test_no_name_in_braces_is_left_over(html):
    assert not re.search(r"\{[\w.]+\}", html)


def test_markup_in_a_text_of_another_teacher_stays_text(tmp_path, monkeypatch):
    (tmp_path / "guide.md").write_text("# Ours\n\n## <img src=x onerror=alert(1)>\n\n<script>alert(1)</script> words\n", encoding="utf-8")
    (tmp_path / "more.md").write_text("# More from us\n\nOne paragraph.\n", encoding="utf-8")
    monkeypatch.setattr("kit.sheets.guide.TEACHERS", tmp_path)
    html = guide_page()
    assert "<script" not in html and "<img" not in html and [head for _, head in chapters(html)][1] == "More from us"


def test_the_guide_holds_what_a_teacher_asks_for():
    text = GUIDE.read_text(encoding="utf-8")
    wanted = ("Where to begin", "What needs what", "The bench: what to set out", "Wrong turns at the bench", "Standards it can serve", "The concept check")
    assert [head for head in wanted if f"\n## {head}\n" not in text] == []
    plans = text.split("## Where to begin")[1].split("\n## ")[0]
    assert all(f"| {plan}" in plans for plan in ("one hour", "one week with a bench", "one week without a bench", "at home"))


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_the_table_of_needs_has_each_lessons_minutes(path):
    lesson, minutes = read_lesson(number(path)), sum(minutes for _, _, minutes in steps(path))
    name = f"{lesson.number} {lesson.title}" if lesson.number.isdigit() else lesson.title
    assert f"| {name} | {minutes} |" in GUIDE.read_text(encoding="utf-8").split("## What needs what")[1].split("\n## ")[0]


def test_the_command_writes_it_and_says_where(tmp_path, capsys, monkeypatch):
    opened = []
    monkeypatch.setattr(command.webbrowser, "open", opened.append)
    monkeypatch.setattr(command, "has_screen", lambda: True)
    path = tmp_path / "out" / "guide.html"
    assert command.guide(Namespace(into=path, browser=False)) == 0 and opened == []
    assert capsys.readouterr().out == f"The guide is in {path}. Open it in a browser; print it from there, on A4 or Letter.\n"
    command.guide(Namespace(into=path, browser=True))
    assert opened == [path.as_uri()] and path.stat().st_size > 50_000
    command.guide(Namespace(into=tmp_path, browser=False))
    assert (tmp_path / command.NAME).exists()


def test_without_a_word_it_goes_into_the_teachers_folder():
    assert read(["guide"]).into == CHECKOUT / "my-class" / "pages" / "guide.html" and read(["guide"]).browser
    assert read(["pool", "x"]).into == CHECKOUT / "my-class" / "pooled" and LESSONS == CHECKOUT / "lessons"
