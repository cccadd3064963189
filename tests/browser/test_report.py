"""A report in a real browser, with no network: readable on a screen, on a phone and on both kinds of paper, and nothing in it runs."""

import re

import pytest
from axe_playwright_python.sync_playwright import Axe

from kit import make_report
from kit.coursework import Answer, add_answer, answers_path
from tests.report.conftest import several

__all__ = ["several"]  # a fixture counts where its name stands

PAPERS = {"A4": (210, 297), "Letter": (216, 279)}
FITS = "() => document.documentElement.scrollWidth <= window.innerWidth"
CUT = """() => [...document.querySelectorAll('tr, figure')].filter(each => getComputedStyle(each).breakInside !== 'avoid').length"""
TALL = """high => [...document.querySelectorAll('tr, figure')].filter(each => each.getBoundingClientRect().height > high).length"""
WORD = "w" * 300


@pytest.fixture
def report(several):
    note = f"<script>document.title = 'run'</script><img src=x onerror=\"document.title = 'run'\"> {WORD}"
    add_answer(answers_path("12"), Answer("12.claim", "note", {"text": note}))
    add_answer(answers_path("00"), Answer("00.warmer", "prediction", {"choice": "c", "words": "Up to 1 °C warmer", "sure": "a guess", "because": WORD}))
    return make_report().path.read_text(encoding="utf-8")


@pytest.fixture(params=["page", "phone"])
def shown(request, report):
    page = request.getfixturevalue(request.param)
    page.context.set_offline(True)
    page.set_content(report)
    return page


def test_it_fits_the_screen_and_axe_finds_nothing(shown):
    assert shown.evaluate(FITS)
    assert Axe().run(shown).response["violations"] == []


def test_nothing_in_it_runs(shown):
    assert shown.title() == "How much warmer, and how sure?" and shown.locator("script, img").count() == 0
    shown.get_by_text("<script>document.title").wait_for()


def test_every_step_by_step_opens_by_a_key(shown):
    first = shown.locator("details").first
    first.locator("summary").focus()
    shown.keyboard.press("Enter")
    first.get_by_text("The effect is the first minus the second").wait_for()


@pytest.mark.parametrize("paper", PAPERS)
def test_it_prints_without_a_cut_row_or_picture_on_few_pages(page, report, paper, tmp_path):
    page.set_content(report)
    page.emulate_media(media="print")
    wide, high = (size / 25.4 * 96 for size in PAPERS[paper])
    page.set_viewport_size({"width": int(wide - 2 * 14 / 25.4 * 96), "height": int(high)})
    assert page.evaluate(CUT) == 0 and page.evaluate(TALL, high - 2 * 16 / 25.4 * 96) == 0 and page.evaluate(FITS)
    pages = len(re.findall(rb"/Type\s*/Page[^s]", page.pdf(path=str(tmp_path / "report.pdf"), format=paper)))
    assert 8 <= pages <= 16  # three runs, a class, causes, rubric: two to four pages a run
