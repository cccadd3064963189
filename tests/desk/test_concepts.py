"""The concept check on the desk: sheets on paper, a grid that keeps every entry, and what comes of it."""

import re

import pytest

from kit import class_desk
from kit.analysis.concepts.inventing import invented_sheets, KEY
from kit.coursework import CONCEPTS, read_lesson
from kit.desk import concept_key_page, concept_sheets_page
from tests.widgets.parts import block_of, press, words

MINE = [["ma07", "bcdbdacb"], ["", ""], ["=1+1", "aaaa.aaa"]]


@pytest.fixture
def card(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return class_desk().concepts()


def rows_of(card, when):
    return next(block["value"]["rows"] for block in card.blocks if block["is"] == "sheet" and block["key"].startswith(when))


def test_every_entry_is_on_the_disk_at_once_and_back_on_reopening(card, tmp_path):
    assert "No sheet is typed in yet." in words(card)
    assert press(card, "before", rows=MINE) == "Kept in concept-check.csv."
    assert press(card, "after", rows=[["ma07", KEY]]) == "Kept in concept-check.csv."
    file = (tmp_path / "concept-check.csv").read_text(encoding="utf-8")
    head = "sheet,code,item_1,item_2,item_3,item_4,item_5,item_6,item_7,item_8"
    assert file.splitlines()[:3] == [head, "before,ma07,b,c,d,b,d,a,c,b", "before,'=1+1,a,a,a,a,,a,a,a"]
    again = class_desk().concepts()
    assert rows_of(again, "before") == [MINE[0], MINE[2]] and rows_of(again, "after") == [["ma07", KEY]]
    assert block_of(again, "verdict")["text"] == "Cannot tell: 1 learner took both sheets. A gain needs 8 or more: read question by question."


def test_a_spreadsheets_file_is_read_and_what_it_holds_amiss_is_said_and_kept(card, tmp_path):
    (tmp_path / "concept-check.csv").write_text("sheet,code,item_1\nbefore,k1,b\nlater,k2,c\n", encoding="utf-8")
    assert press(card, "again") == "concept-check.csv is read again."
    assert "Later, code k2: the first column must say before or after." in words(card) and rows_of(card, "before") == [["k1", "b"]]
    press(card, "after", rows=[["k1", KEY]])
    assert "later,k2,c" in (tmp_path / "concept-check.csv").read_text(encoding="utf-8")


def test_a_file_of_that_name_that_is_something_else_is_left_alone(card, tmp_path):
    (tmp_path / "concept-check.csv").write_text("elapsed_s,treated\n0,1\n", encoding="utf-8")
    assert press(card, "before", rows=MINE).startswith("concept-check.csv holds no sheets of a concept check")
    assert (tmp_path / "concept-check.csv").read_text(encoding="utf-8") == "elapsed_s,treated\n0,1\n"


def test_the_invented_class_shows_what_comes_of_it_and_goes_again(card):
    press(card, "invented")
    captions = [block["caption"] for block in card.blocks if block["is"] == "rows"]
    assert "Invented class. Gained" in words(card) and len(captions) == 8
    assert captions[5] == "Question 6: 2 of 24 right before, 6 after. The idea most held now: every reading is new (13)."
    assert "<svg" in block_of(card, "chart")["svg"]
    assert not any(sheet.code in str(block_of(card, "chart")) for sheet in invented_sheets())
    press(card, "invented")
    assert "No sheet is typed in yet." in words(card)


def test_the_sheets_hold_every_question_twice_and_no_key(card, tmp_path):
    assert press(card, "print").startswith("pages/concept-check.html and pages/concept-check-key.html are written.")
    lesson = read_lesson(CONCEPTS)
    sheets, key = ((tmp_path / "pages" / name).read_text(encoding="utf-8") for name in ("concept-check.html", "concept-check-key.html"))
    assert (sheets, key) == (concept_sheets_page(lesson), concept_key_page(lesson))
    assert all(sheets.count(f">{number}. ") == 2 for number in range(1, 9)) and sheets.count("Code: ____") == 2
    assert "right" not in re.sub(r"The newer thermometer is right|<style>.*?</style>", "", sheets, flags=re.S)
    assert not any(choice.idea and choice.idea in sheets for each in lesson.questions for choice in each.choices)
    assert "pilot them" in key and key.count(">right<") == 8
    assert not re.search(r"<script|<link|\bsrc=|@import|url\(", sheets + key)
