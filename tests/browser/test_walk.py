"""One walk for every lesson: predict, see what was kept back, move the view, answer amiss and rightly, write; find all again on a phone."""

from contextlib import contextmanager

import pytest

from kit.coursework.answers.answers import read_answers
from kit.coursework.lessons.lessons import read_lesson
from kit.words import counted
from tests.browser.conftest import SAVE, WRITTEN
from tests.browser.windows import SIZES
from tests.lessons.reading import NOTEBOOKS, number

SAID = "Here is what I found, how sure I am of it, and what I do not know yet."
RED = ".jp-OutputArea-output[data-mime-type$='stderr'], .jp-OutputArea-output[data-mime-type$='error']"
WIDE = """() => [...document.querySelectorAll('.jp-OutputArea-output > *')]
  .filter(each => each.scrollWidth > each.clientWidth + 1 && getComputedStyle(each).overflowX === 'visible').map(each => each.className)"""
MOVED = "([index, old]) => document.querySelectorAll('.jp-OutputArea-output [role=slider]')[index].getAttribute('aria-valuenow') !== old"
NONE_KEPT_BACK = "() => ![...document.querySelectorAll('.kit-card')].some(each => each.textContent.includes('This opens by itself once'))"
WAITING = "() => ![...document.querySelectorAll('[aria-busy=true]')].length"


@pytest.fixture(params=NOTEBOOKS, ids=lambda path: path.stem)
def lesson(request):
    return request.param


@pytest.fixture
def walk(own_copy, open_notebook, started, lesson):
    """`walk(page)` opens a fresh copy of the lesson in a folder of its own, which starts by itself; gives that folder."""
    folder = own_copy(lesson)

    def open_(page):
        open_notebook(page, f"{folder.name}/{lesson.name}")
        started(page)
        page.wait_for_function("() => document.querySelectorAll('.kit-card').length >= 3")
        return folder

    return open_


def test_a_learner_walks_the_whole_lesson_and_finds_all_again_on_a_phone(page, walk, lesson, started, finger, axe, picture):
    """What cards do is proven at 1280 pixels; loaded anew at 390, all is found again, nothing is too wide, the view moves by touch."""
    folder, texts = walk(page), read_lesson(number(lesson))
    picture(page, f"{lesson.stem}-start-1280")
    predict_all(page, texts)
    move_by_key(page)
    answer_all(page, texts)
    write(page)
    picture(page, f"{lesson.stem}-check-1280")
    looks_right(page, axe)
    kinds = [answer.kind for path in folder.glob("*answers.json") for answer in read_answers(path).answers]
    assert kinds.count("prediction") == len(texts.predictions) and kinds.count("question") == 2 * len(texts.questions)
    page.evaluate(SAVE)
    with as_a_phone(page):
        page.reload()
        started(page)
        all_is_there(page, texts)
        move_by_touch(page, finger)
        picture(page, f"{lesson.stem}-view-390")
        looks_right(page, axe)
        assert page.evaluate("() => document.documentElement.scrollWidth") <= 390


@contextmanager
def as_a_phone(page):
    """The window as small as a phone's, and for a finger."""
    emulation = page.context.new_cdp_session(page)
    emulation.send("Emulation.setTouchEmulationEnabled", {"enabled": True, "maxTouchPoints": 1})
    page.set_viewport_size(SIZES["phone"]["viewport"])
    yield
    emulation.detach()


def looks_right(page, axe):
    assert axe(page) == [] and page.locator(RED).count() == 0 and page.evaluate(WIDE) == []


def all_is_there(page, texts):
    """What was predicted, written and answered stands there again."""
    page.wait_for_function(NONE_KEPT_BACK)
    page.wait_for_function(WRITTEN, arg=SAID)
    asked, checked = len(texts.predictions), len(texts.questions)
    done = f"kept {asked} of {counted(asked, 'prediction')}, {checked} of {counted(checked, 'question')}"
    page.wait_for_function("done => document.querySelector('.kit-strip-progress').textContent.includes(done)", arg=done)


def predict_all(page, texts):
    """Take the first choice of every prediction; afterwards nothing is kept back any more."""
    for nth, _ in enumerate(texts.predictions):
        asked = page.get_by_role("group", name="Your prediction", exact=True).nth(nth)
        for part in (asked.get_by_role("radio").first, asked.get_by_label("fairly sure"), asked.get_by_role("button", name="Keep my prediction")):
            part.press("Space")  # by key: what the last prediction opened may still move the page under a mouse
        asked.get_by_text("You said").first.wait_for()
    page.wait_for_function(NONE_KEPT_BACK)


def sliders(page):
    return page.locator(".jp-OutputArea-output [role=slider]")


def move_by_key(page):
    """Move the first handle of the lesson's view by a key, there and back; its value follows and it says so in words."""
    grip = sliders(page).first
    grip.wait_for()
    grip.scroll_into_view_if_needed()
    grip.focus()
    for key in ("ArrowRight", "ArrowLeft"):
        before = grip.get_attribute("aria-valuenow")
        grip.press(key)
        page.wait_for_function(MOVED, arg=[0, before])
    assert grip.get_attribute("aria-valuetext") and grip.get_attribute("aria-label")
    page.wait_for_function(WAITING)


def move_by_touch(page, finger):
    """Drag the first handle with a finger, away from the nearer end of its way."""
    grip = sliders(page).first
    grip.wait_for()
    grip.scroll_into_view_if_needed()
    now, low, high = (float(grip.get_attribute(f"aria-value{which}")) for which in ("now", "min", "max"))
    shape = grip.locator("rect, circle")
    up = 1 if now - low < high - now else -1
    before = grip.get_attribute("aria-valuenow")
    finger(page, shape.first if shape.count() else grip, 40 * up, -40 * up)
    page.wait_for_function(MOVED, arg=[0, before])


def answer_all(page, texts):
    """Answer every question amiss first, then rightly; each answer says why."""
    check = page.get_by_role("group", name="Check yourself", exact=True)
    for place, question in enumerate(texts.questions):
        right = question.choices.index(question.right)
        for choice, told in ((0 if right else 1, "The idea behind this"), (right, "Yes. Here is why:")):
            check.get_by_text(f"Question {place + 1} of {len(texts.questions)}").wait_for()
            check.get_by_role("radio").nth(choice).check()
            check.get_by_role("button", name="Check").first.click()
            check.get_by_text(told).first.wait_for()
        if place + 1 < len(texts.questions):
            check.get_by_role("button", name="Next question").click()


def write(page):
    note = page.get_by_role("group", name="For your notebook", exact=True).first
    note.get_by_role("textbox").fill(SAID)
    note.get_by_text("Kept at").wait_for()
