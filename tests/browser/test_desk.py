"""The teacher's desk by buttons alone: six hand-ins come in, one of them damaged; the class page is printed."""

import re
import shutil

from kit.coursework import read_concept_sheets, TEACHERS
from kit.examples import DATASETS
from tests.browser.test_own_run import card, press, WIDER
from tests.desk.conftest import handed_in  # a fixture counts where a module has its name
from tests.desk.test_collecting import SIX

DESK = "desk.ipynb"


def test_six_hand_ins_one_damaged_and_the_class_page_on_paper(page, lab, open_notebook, started, handed_in, axe, picture):
    home, came = lab.work / "the-desk", handed_in(SIX)
    home.mkdir()
    shutil.copy(TEACHERS / DESK, home / DESK)
    shutil.copy(DATASETS / "class" / "slate.csv", came / "slate.csv")
    damaged = came / "hand-in-Fern.zip"
    damaged.write_bytes(damaged.read_bytes()[:500])
    open_notebook(page, f"{home.name}/{DESK}")
    started(page)
    card(page, "The class's files").locator("input[type=file]").set_input_files(sorted(came.iterdir()))
    card(page, "The class's files").get_by_text("slate.csv is in the folder class.").wait_for()
    card(page, "The class's files").get_by_text("5 hand-ins and 6 runs came in. 1 file could not be read.").first.wait_for()
    card(page, "What could not be read").get_by_text("Ask: hand-in-Fern.").wait_for()
    again = card(page, "Run by run").get_by_role("img")
    again.wait_for()
    assert again.evaluate("async image => { await image.decode(); return image.naturalWidth }") > 0
    picture(page, "desk-start-1280")
    pooled = card(page, "All groups together")
    pooled.get_by_label("vessels of slate had changed places").check()
    press(pooled, "Pool them so")
    pooled.get_by_text("Pooled anew, and kept.").wait_for()
    pooled.scroll_into_view_if_needed()
    picture(page, "desk-pooled-1280")
    card(page, "What the class predicted, and changed").get_by_text("5 predicted.").wait_for()
    card(page, "What the class predicted, and changed").scroll_into_view_if_needed()
    picture(page, "desk-predicted-1280")
    card(page, "Which questions were missed first").scroll_into_view_if_needed()
    picture(page, "desk-questions-1280")
    concept_check_by_keys(page, home, picture)
    assert axe(page) == [] and page.evaluate(WIDER) == []
    press(card(page, "Pages to print"), "Make the class page")
    card(page, "Pages to print").get_by_text("pages/class-page.html is written.").wait_for()
    on_paper(page, home / "pages" / "class-page.html", picture)


def concept_check_by_keys(page, home, picture):
    """Two sheets typed without the mouse, each kept at once; then what comes of a whole class."""
    check = card(page, "What they thought before, and after")
    grid = check.locator(".kit-sheet").filter(has_text="Sheets from before lesson 00")
    grid.get_by_label("code, row 1", exact=True).focus()
    for words in ("ma07", "bcdbdacb", "lo12", "aaaa.aaa"):
        page.keyboard.type(words)
        page.keyboard.press("Enter")
    check.get_by_text("Cannot tell: 0 learners took both sheets.").wait_for()
    check.get_by_text("Kept in concept-check.csv.").wait_for()
    assert len(read_concept_sheets(home / "concept-check.csv")) == 2
    assert grid.get_by_label("code, row 3", exact=True).evaluate("box => box === document.activeElement")
    check.scroll_into_view_if_needed()
    picture(page, "desk-concept-grid-1280")
    press(check, "Look at an invented class")
    check.get_by_text("Invented class. Gained:").first.wait_for()
    check.get_by_text("Invented class. Gained:").first.scroll_into_view_if_needed()
    picture(page, "desk-concept-result-1280")


def on_paper(page, path, picture):
    """The page as paper has it: all its pictures are there, and it fits the sheet. Whatever it asked of a network would fail the test."""
    paper = page.context.new_page()
    paper.set_content(path.read_text(encoding="utf-8"))
    paper.emulate_media(media="print")
    assert paper.locator("svg[role=img]").count() == 7 and paper.get_by_text("What is open").count() == 1
    paper.set_viewport_size({"width": 703, "height": 1000})  # A4 less its margins of 12 mm, at 96 pixels to the inch (ISO 216, CSS Values 3)
    assert paper.evaluate("() => document.documentElement.scrollWidth") <= 703
    picture(paper, "class-page-a4")
    for form in ("A4", "Letter"):
        assert len(re.findall(rb"/Type\s*/Page\b", paper.pdf(format=form))) >= 4
    paper.close()
