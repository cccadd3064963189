"""The window marker and the live effect in a real JupyterLab: by mouse, finger, keys and typed minutes; nothing is lost when things die."""

import json
import os
import shutil
import signal
import time
from contextlib import contextmanager

import pytest

from tests.browser.conftest import CHECKOUT, DO, SAVE, shared_page

FIND_TESTS = f"import sys; sys.path.insert(0, {str(CHECKOUT)!r})"
SETUP = f"{FIND_TESTS}\nfrom kit import mark_windows, watch\nfrom tests.widgets.invented import invented_run"
SENTENCE_IS = "told => document.querySelector('.kit-marker-sentence').textContent === told"
ALL_WATCH = "told => [...document.querySelectorAll('.kit-watch-sentence')].every(each => each.textContent === told)"
# Every pair of number and sentence that was on the screen together, frame by frame.
KEEP_PAIRS = """() => { window.pairs = []; const root = document.querySelector('.kit-marker');
  const text = part => root.querySelector(part).textContent;
  const frame = () => { requestAnimationFrame(frame); window.pairs.push([text('.kit-marker-value strong'), text('.kit-marker-sentence')]); };
  frame(); }"""
KEEP_HEARD = """() => { const status = document.querySelector('.kit-marker [role=status]'); window.heard = [];
  new MutationObserver(() => window.heard.push(status.textContent)).observe(status, {childList: true}); }"""
BOTH_AT = """time => { const ends = [...document.querySelectorAll('[aria-label="response end"]')];
  return ends.length === 2 && ends.every(each => each.getAttribute('aria-valuetext') === time); }"""
SAVED = "() => !window.jupyterapp.shell.currentWidget.context.model.dirty"
UNPLACED = "Nobody has placed these windows yet. Move all three to where you think they belong."
OVERLAP = "Windows can't overlap, so the perturbation moved along."


@pytest.fixture
def opened(open_notebook, run_all, tmp_path):
    """`opened(page, lab)` shows a marker of an invented run in a notebook of its own, or in the one named `again`; its marks lie in `tmp_path`.
    The kernel's id."""

    def open_(page, lab, again=None):
        kernel = open_notebook(page, again or cells(tmp_path), lab)
        run_all(page)
        page.wait_for_selector(".kit-marker")
        return kernel

    return open_


@pytest.fixture(scope="module")
def desk(browser, lab):
    """One page with a marker and two live effects for the tests that only use them, and the folder of its marks."""
    folder = lab.work / "desk"
    with shared_page(browser, lab, "desk.ipynb", [*cells(folder), "watch(marker)", "watch(marker, parts=True)"]) as page:
        yield page, folder


@pytest.fixture
def fresh(desk, run_all):
    """The page of `desk` as if its notebook were run for the first time, and the folder of its marks."""
    page, folder = desk
    shutil.rmtree(folder, ignore_errors=True)
    page.evaluate(DO, "notebook:clear-all-cell-outputs")
    run_all(page)
    page.wait_for_function("() => document.querySelectorAll('.kit-marker, .kit-watch').length === 3")
    page.locator(".kit-marker").evaluate("each => each.scrollIntoView()")
    return page, folder


def cells(folder):
    return [SETUP, f"marker = mark_windows(invented_run(), folder={str(folder)!r})\nmarker"]


def grip(page, name):
    return page.get_by_role("slider", name=name, exact=True).first


def minute(page, name):
    return float(grip(page, name).get_attribute("aria-valuenow")) / 60


def text(page, part):
    return page.locator(f".kit-marker-{part}").first.inner_text()


def at_rest(page):
    """Wait for the full answer to the last move; the sentence then shown."""
    page.wait_for_selector(".kit-marker:not(.kit-marker-waiting)")
    return text(page, "sentence")


def middle(locator):
    box = locator.bounding_box()
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def drag(page, locator, pixels, drop=True):
    x, y = middle(locator)
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + pixels, y, steps=6)
    if drop:
        page.mouse.up()


def place_by_mouse(page):
    """Drag each window by its letter from the start to where it belongs: baseline 10 to 11, perturbation 11 to 12, response 20 to 21."""
    bars = page.locator(".kit-marker-bar")
    one_minute = bars.first.bounding_box()["width"]  # at the start each window is one minute wide
    for i, minutes in ((2, 16.5), (1, 9), (0, 9.5)):
        drag(page, bars.nth(i), minutes * one_minute)
    return one_minute


def kept(folder):
    files = list((folder / "marks").glob("*.json"))
    return json.loads(files[0].read_text()) if files else None


def wait_until_kept(folder, name, minutes, within=0.05):
    deadline = time.monotonic() + 30
    while time.monotonic() < deadline:
        if (marks := kept(folder)) and marks[name] == pytest.approx(minutes, abs=within):
            return
        time.sleep(0.05)
    raise AssertionError(f"{name} was not kept: {kept(folder)}")


def test_a_learner_places_the_windows_by_mouse_and_reads_the_number(fresh, axe, picture):
    page, folder = fresh
    assert text(page, "trouble") == UNPLACED and text(page, "sentence").startswith("Cannot tell")
    picture(page, "marker-start")
    place_by_mouse(page)
    sentence = at_rest(page)
    assert sentence.startswith("The treated vessel warmed by 1.5") and text(page, "trouble") == ""
    assert text(page, "value").startswith("Extra warming of the treated vessel: 1.5")
    page.wait_for_function(ALL_WATCH, arg=sentence)
    wait_until_kept(folder, "response", [20, 21])
    assert [minute(page, f"{name} start") for name in ("baseline", "perturbation")] == pytest.approx([10, 11], abs=0.05)
    picture(page, "marker-placed")
    page.locator(".kit-watch summary").evaluate_all("all => all.forEach(each => each.click())")
    assert axe(page) == []


def test_a_window_that_meets_another_pushes_it_along_and_escape_takes_it_back(fresh):
    page, _ = fresh
    one_minute = place_by_mouse(page)
    sentence = at_rest(page)
    drag(page, page.locator(".kit-marker-bar").first, 3 * one_minute, drop=False)
    assert text(page, "trouble") == OVERLAP and minute(page, "perturbation start") == pytest.approx(14, abs=0.1)
    assert at_rest(page) != sentence
    page.keyboard.press("Escape")
    page.mouse.up()
    assert minute(page, "perturbation start") == pytest.approx(11, abs=0.05)
    page.wait_for_function(SENTENCE_IS, arg=sentence)


def test_an_old_range_never_stands_beside_a_new_number(fresh):
    page, _ = fresh
    page.evaluate(KEEP_PAIRS)
    place_by_mouse(page)
    at_rest(page)
    page.wait_for_function("() => window.pairs.length > 20")
    pairs = page.evaluate("() => window.pairs")
    shown = {value for value, sentence in pairs if "being worked out" not in sentence}
    assert all(value.split()[0] in sentence for value, sentence in pairs if "being worked out" not in sentence), shown


def test_undo_redo_and_start_again(fresh):
    page, folder = fresh
    place_by_mouse(page)
    sentence = at_rest(page)
    undo, redo, again = (page.get_by_role("button", name=name) for name in ("Undo", "Redo", "Start again"))
    for _ in range(3):
        undo.click()
    page.wait_for_selector("button[aria-disabled=true] >> text=Undo")
    assert page.evaluate("document.activeElement.textContent") == "Undo"  # a button without use keeps the focus, or keys would go astray
    assert minute(page, "response start") == pytest.approx(3.5, abs=0.01)
    for _ in range(3):
        redo.click()
    page.wait_for_function(SENTENCE_IS, arg=sentence)
    again.click()
    page.wait_for_function("told => document.querySelector('.kit-marker-trouble').textContent === told", arg=UNPLACED)
    page.keyboard.press("Control+z")
    page.wait_for_function(SENTENCE_IS, arg=sentence)
    wait_until_kept(folder, "response", [20, 21])


@contextmanager
def clock_stopped(page, later=0):
    """Let the page's clock stand still, some milliseconds ahead: how long its tests take to press a key depends on the machine."""
    page.evaluate("later => { const now = performance.now() + later; performance.now = () => now; }", later)
    try:
        yield
    finally:
        page.evaluate("() => { delete performance.now; }")


def test_every_edge_moves_by_keyboard(fresh):
    page, _ = fresh
    end = grip(page, "baseline end")
    end.focus()
    far = (("End", "2 min 0 s"), ("Home", "32 s"), ("PageUp", "52 s"), ("ArrowLeft", "50 s"))
    with clock_stopped(page):  # keys that follow each other within a second are one move
        for key, shown in (("ArrowRight", "1 min 32 s"), ("Shift+ArrowRight", "1 min 52 s"), *far):
            page.keyboard.press(key)
            assert end.get_attribute("aria-valuetext") == shown
    with clock_stopped(page, later=2000):
        page.keyboard.press("ArrowLeft")
    page.wait_for_function("() => document.querySelectorAll('[role=slider]')[1].getAttribute('aria-valuetext') === '48 s'")
    for shown in ("50 s", "1 min 30 s"):
        at_rest(page)
        page.keyboard.press("Control+z")
        page.wait_for_function("shown => document.querySelectorAll('[role=slider]')[1].getAttribute('aria-valuetext') === shown", arg=shown)
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.getAttribute('aria-label')") == "perturbation start"
    page.keyboard.press("Control+PageUp")
    assert [minute(page, f"perturbation {end}") for end in ("start", "end")] == pytest.approx([2 + 20 / 60, 3 + 20 / 60])


def test_no_key_reaches_the_notebook_from_anywhere_inside(fresh):
    page, _ = fresh
    notebook = "window.jupyterapp.shell.currentWidget.content"
    state = f"() => [{notebook}.widgets.length, {notebook}.activeCellIndex, {notebook}.mode]"
    inside = page.locator(":is(.kit-marker, .kit-watch) :is([role=slider], input, button, summary), .kit-marker, .kit-watch")
    assert inside.count() == 6 + 6 + 3 + 2 + 4 + 3
    for i in range(inside.count()):
        inside.nth(i).focus()
        before = page.evaluate(state)
        for key in ("b", "d", "d", "ArrowDown", "ArrowUp", "Escape"):
            page.keyboard.press(key)
        assert page.evaluate(state) == before
    page.locator(".kit-marker-help").click()
    page.keyboard.press("b")
    assert page.evaluate(state)[0] == before[0]


MISSES = "Your perturbation window does not hold the moment the gas went in yet."
NO_ROOM = "that leaves no room for the baseline and the perturbation. Move or narrow those first."


def test_minutes_are_typed_and_what_cannot_be_is_said(fresh):
    page, _ = fresh
    pushed = "Windows can't overlap, so the perturbation and the response moved along."
    for box, typed, name, expected, told in (
        ("response end", "21:30", "response end", 21.5, MISSES),
        ("response start", "20,5", "response start", 20.5, MISSES),
        ("response end", "10:30", "response start", 9.5, MISSES),
        ("baseline start", "10", "response start", 12, pushed),
        ("perturbation end", "99", "perturbation end", 12, "The perturbation can't end at 99 min: the record ends at 21.5 min."),
        ("baseline start", "-1", "baseline start", 10, "The baseline can't start at -1 min: the record starts at 0 min."),
        ("response start", "1:30", "response start", 12, "The response can't start at 1.5 min: " + NO_ROOM),
        ("response start", "1.5", "perturbation start", 11, "The response can't start at 1.5 min: " + NO_ROOM),
        ("baseline end", "soon", "baseline end", 11, '"soon" is not a time in minutes. Type 10.5 or 10:30, say.'),
    ):
        field = page.get_by_role("spinbutton", name=f"{box}, minutes")
        field.fill(typed)
        field.press("Enter")
        at_rest(page)
        assert (minute(page, name), text(page, "trouble")) == (pytest.approx(expected), told)


def test_a_finger_drags_on_a_phone(phone, lab, opened, axe, picture, tmp_path):
    page = phone
    opened(page, lab)
    page.evaluate("window.jupyterapp.shell.collapseLeft()")
    page.wait_for_function("() => document.querySelector('.kit-marker').clientWidth < 400")
    page.locator(".kit-marker").evaluate("each => each.scrollIntoView()")
    one_minute = page.locator(".kit-marker-bar").first.bounding_box()["width"]
    swipe(page, page.locator(".kit-marker-hold").nth(2), 16 * one_minute)
    swipe(page, page.locator(".kit-marker-flag").nth(4), -3 * one_minute)
    wait_until_kept(tmp_path, "response", [16.5, 20.5])
    assert page.evaluate("() => document.documentElement.scrollWidth") <= 390
    assert page.evaluate("() => { const root = document.querySelector('.kit-marker'); return root.scrollWidth - root.clientWidth; }") == 0
    picture(page, "marker-phone")
    assert axe(page) == []


def swipe(page, locator, pixels):
    """One finger, by the browser's own touch events, in steps as a hand gives them."""
    (x, y), touch = middle(locator), page.context.new_cdp_session(page)
    touch.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]})
    for step in range(1, 7):
        touch.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": [{"x": x + pixels * step / 6, "y": y}]})
    touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})


def test_two_views_stay_in_step_and_both_come_back_with_a_reload(page, lab, open_notebook, run_all, show_theme, axe, picture, tmp_path):
    open_notebook(page, [*cells(tmp_path), "marker"])
    run_all(page)
    show_theme(page, "Dark")
    grip(page, "response end").focus()
    page.keyboard.press("Shift+ArrowRight")
    page.wait_for_function(BOTH_AT, arg="4 min 50 s")
    at_rest(page)
    assert axe(page) == []
    page.locator(".kit-marker").first.evaluate("each => each.scrollIntoView()")
    picture(page, "marker-dark")
    show_theme(page, "Light")
    page.evaluate(SAVE)
    page.wait_for_function(SAVED)
    page.reload()
    page.wait_for_function(BOTH_AT, arg="4 min 50 s")


def test_what_is_read_aloud_waits_until_the_hand_rests(fresh, press_at_once):
    page, _ = fresh
    page.evaluate(KEEP_HEARD)
    press_at_once(grip(page, "response end"), *5 * ["ArrowRight"])
    at_rest(page)
    told = " ".join(filter(None, (text(page, "trouble"), text(page, "sentence"))))
    page.wait_for_function("told => window.heard.includes(told)", arg=told)
    page.wait_for_timeout(400)
    assert [each for each in page.evaluate("() => window.heard") if not each.startswith("Python has not answered yet.")] == [told]


def test_no_mark_is_lost_when_the_kernel_is_killed_in_the_middle(lab, rough_page, opened, run_all, tmp_path):
    page = rough_page
    kernel = opened(page, lab)
    one_minute = place_by_mouse(page)
    wait_until_kept(tmp_path, "baseline", [10, 11])
    drag(page, page.locator(".kit-marker-bar").nth(2), -2 * one_minute, drop=False)
    wait_until_kept(tmp_path, "response", [18, 19])
    os.kill(lab.kernel_pid(kernel), signal.SIGKILL)
    page.mouse.move(300, 300)
    page.mouse.up()
    page.wait_for_function("() => document.querySelector('.kit-marker-trouble').textContent.startsWith('Python has not answered yet.')")
    page.locator(".jp-Dialog .jp-mod-accept").click()  # JupyterLab says that the kernel died and starts it again
    page.evaluate(DO, "notebook:clear-all-cell-outputs")
    run_all(page)
    page.wait_for_selector(".kit-marker:not(.kit-marker-waiting)")
    assert minute(page, "response start") == pytest.approx(18, abs=0.05)


def test_no_mark_is_lost_when_the_server_is_killed_in_the_middle(start_lab, rough_page, opened, tmp_path):
    lab, page = start_lab(), rough_page
    opened(page, lab)
    grip(page, "response start").focus()
    page.keyboard.press("Control+PageUp")
    wait_until_kept(tmp_path, "response", [3.5 + 20 / 60, 4.5 + 20 / 60], within=0.01)
    page.keyboard.press("ArrowLeft")
    lab.kill()
    [notebook] = lab.work.glob("cells-*.ipynb")
    opened(page, start_lab(lab.work), notebook.name)
    assert minute(page, "response start") in (pytest.approx(3.5 + 20 / 60), pytest.approx(3.5 + 18 / 60))
    assert [each.suffix for each in (tmp_path / "marks").iterdir()] == [".json"]
