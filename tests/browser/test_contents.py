"""The contents page and the strip above a lesson: there and back, by mouse, key and touch; narrow and wide; at home on paper, too."""

import re

import pytest

from kit.coursework import Answer, add_answer, answers_beside, LESSONS

SEEN = "() => [...document.querySelectorAll('.kit-strip-all button')].filter(each => each.checkVisibility())"
SMALL = f"""{SEEN}.map(each => [each.textContent, each.getBoundingClientRect()])
  .filter(([, box]) => box.height < 44 || box.width < 44).map(([words]) => words)"""
CLIPPED = """() => [...document.querySelectorAll('.kit-card, .kit-marker, .kit-watch, .js-plotly-plot, .jp-MarkdownOutput img')]
  .filter(each => each.checkVisibility() && each.getBoundingClientRect().right > document.documentElement.clientWidth + 1).map(each => each.className)"""
FEWER = "left => [...document.querySelectorAll('button')].filter(each => each.textContent === 'Skip, show me').length < left"
WIDTH = "() => document.documentElement.scrollWidth"
NAME = "00-your-first-run.ipynb"


@pytest.fixture(scope="module")
def lab(start_lab, tmp_path_factory):
    """A server that is started for the second time in its folder."""
    first = start_lab()
    first.stop()
    return start_lab(first.work)


def contents(page, lab, started):
    page.goto(lab.landing)
    started(page)
    page.locator(".kit-contents").wait_for()


def test_the_second_start_opens_the_contents_which_lead_to_a_lesson_and_back(page, lab, started, axe, picture):
    contents(page, lab, started)
    picture(page, "contents-1280")
    assert axe(page, ".kit-contents") == axe(page, ".kit-strip-all") == []
    strip = page.locator(".kit-strip-all:visible")  # JupyterLab has buttons of its own
    assert strip.get_by_role("button", name="Contents").count() == 0
    page.get_by_role("link", name="Your first run").click()
    page.wait_for_function("name => window.jupyterapp.shell.currentWidget?.context?.path === name", arg=NAME)
    started(page)
    page.get_by_role("button", name="Skip, show me").first.click()
    page.get_by_role("button", name="Next: Step 6, mark them").wait_for()
    page.get_by_role("slider", name="response end").press("End")
    page.get_by_role("button", name="Next: Step 9, predict once more").wait_for()
    picture(page, "strip-1280")
    assert axe(page, ".kit-strip-all") == [] and page.evaluate(SMALL) == []
    strip.get_by_role("button", name="Contents").click()
    page.get_by_text("You kept 0 of 2 predictions, 0 of 5 questions.").wait_for()


def test_the_strip_is_reached_by_tab_and_takes_to_the_next_step(page, own_copy, open_notebook):
    """Whoever has come to it stays there, although the lesson would go to the first step not yet done as soon as it knows which that is."""
    folder, asked = own_copy(LESSONS / NAME), []
    (folder / "contents.ipynb").touch()
    names = ["Contents", "Next", "Start again with a fresh copy", "Print"]

    def answer(route):
        asked.append(route.request.url)
        if len(asked) == 2:  # at first which lesson this is; now that all has run, how far its learner is
            page.get_by_role("button", name=names[0]).focus()
            add_answer(answers_beside(folder / NAME), Answer("00.warmer", "skipped"))
        route.continue_()

    page.route("**/twin-vessels/lesson?*", answer)
    open_notebook(page, f"{folder.name}/{NAME}")
    page.get_by_role("button", name=re.compile("^Next: Step 6")).wait_for()
    page.unroute("**/twin-vessels/lesson?*")
    for name in names[1:]:
        page.keyboard.press("Tab")
        assert re.match(name, page.evaluate("() => document.activeElement.textContent"))
    page.get_by_role("button", name=re.compile("^Next: Step")).press("Enter")
    assert page.evaluate("() => document.activeElement.textContent").startswith("Step ")


def test_on_a_phone_the_strip_folds_and_nothing_is_wider_than_the_window(phone, lab, open_notebook, started, show_theme, axe, picture):
    contents(phone, lab, started)
    picture(phone, "contents-390")
    assert phone.evaluate(WIDTH) == 390 and axe(phone, ".kit-contents") == []
    open_notebook(phone, NAME, lab)
    started(phone)
    assert phone.evaluate(f"{SEEN}.length") == 1
    phone.get_by_role("button", name="Your first run").tap()
    phone.get_by_role("button", name="Print").wait_for()
    for theme in ("Dark", "Light"):
        show_theme(phone, theme)
        picture(phone, f"strip-390-{theme.lower()}")
        assert axe(phone, ".kit-strip-all") == []
    assert phone.evaluate(SMALL) == [] and phone.evaluate(WIDTH) == 390
    phone.get_by_role("button", name=re.compile("^(Begin with|Next): Step")).tap()
    phone.wait_for_function(f"{SEEN}.length === 1")


def test_on_a_tablet_it_fits(tablet, lab, open_notebook, started, picture):
    open_notebook(tablet, NAME, lab)
    started(tablet)
    picture(tablet, "strip-820")
    assert tablet.evaluate(SMALL) == [] and tablet.evaluate(WIDTH) == 820


def test_on_paper_there_is_the_lesson_whole_and_nothing_of_the_frame(page, own_copy, open_notebook, started):
    """Pixels inside the margins of 12 mm: 210 - 24 mm and 215.9 - 24 mm at 96 to the inch (ISO 216, ANSI Y14.1, CSS Values 3)."""
    open_notebook(page, f"{own_copy(LESSONS / NAME).name}/{NAME}")
    started(page)
    page.wait_for_function("() => document.querySelectorAll('.kit-card').length >= 5")
    skip = page.get_by_role("button", name="Skip, show me")
    while left := skip.count():
        skip.first.click()
        page.wait_for_function(FEWER, arg=left)
    page.locator(".kit-marker").wait_for()
    page.locator(".js-plotly-plot").first.wait_for()
    pages = [page.pdf(format=sheet).count(b"/Type /Page\n") for sheet in ("A4", "Letter")]  # before the medium is told: then paper has one page
    assert min(pages) >= 7 and max(pages) <= 12
    for width in (703, 725):
        page.set_viewport_size({"width": width, "height": 1000})
        page.evaluate("() => window.dispatchEvent(new Event('beforeprint'))")
        page.emulate_media(media="print")
        assert page.evaluate(CLIPPED) == [] and page.evaluate(WIDTH) <= width
        frame = page.locator("#jp-top-panel, #jp-menu-panel, .jp-Toolbar, .jp-SideBar, #jp-bottom-panel, .kit-strip-all, .jp-InputPrompt")
        assert not [each for each in frame.all() if each.is_visible()]
        assert page.get_by_role("heading", name="Step 16 of 16").is_visible()
        page.emulate_media(media="screen")
