"""Lesson 00 as a newcomer meets it: run, predict, mark, read, check, write; by mouse, by keys alone, on a phone; and nothing is lost."""

import pytest

from kit.analysis.effect.paired import paired_effect
from kit.coursework.answers.answers import answers_beside, read_answers
from kit.examples import example_run
from kit.records.windows import Windows
from tests.browser.conftest import INTO_VIEW, SAVE

NAME = "00-your-first-run.ipynb"
CELLS = "() => window.jupyterapp.shell.currentWidget.content.widgets.length"
TOO_WIDE = """() => [...document.querySelectorAll('.kit-card, .kit-marker, .kit-watch')]
  .filter(each => each.scrollWidth > each.clientWidth + 1).map(each => each.className)"""
# All that the status of the box that has the focus says from now on.
KEEP_STATUS = """() => {
  const status = document.activeElement.closest('.kit-card').querySelector('.kit-status');
  window.said = [];
  new MutationObserver(() => window.said.push(status.textContent)).observe(status, { childList: true });
}"""
RED = ".jp-OutputArea-output[data-mime-type$='stderr'], .jp-OutputArea-output[data-mime-type$='error']"
GOOD = Windows((10, 11), (11, 12), (20.5, 21.5))
ORDER = ("response end", "response start", "perturbation end", "perturbation start", "baseline end", "baseline start")
EDGES = list(zip(ORDER, (21.5, 20.5, 12, 11, 11, 10)))
AT = "([edge, minutes]) => +document.querySelector(`[aria-label='${edge}']`)?.getAttribute('aria-valuenow') === 60 * minutes"


@pytest.fixture(scope="module")
def result():
    """What windows where they belong give: '1.53 °C'."""
    return paired_effect(example_run("basalt"), GOOD).warming.value_text


def card(page, title, nth=0):
    return page.get_by_role("group", name=title, exact=True).nth(nth)


def predict(page, nth, choice):
    asked = card(page, "Your prediction", nth)
    asked.get_by_label(choice).check()
    asked.get_by_label("fairly sure").check()
    asked.get_by_role("button", name="Keep my prediction").click()
    asked.get_by_text("You said").first.wait_for()


def mark(page):
    """Type all windows where they belong, the last edge first, so that none is in another's way."""
    for edge, minutes in EDGES:
        box = page.get_by_label(f"{edge}, minutes")
        box.fill(str(minutes))
        box.press("Enter")
        page.wait_for_function(AT, arg=[edge, minutes])


def at_step(page, step):
    page.get_by_role("heading", name=f"Step {step} of").evaluate(INTO_VIEW)


def test_a_newcomer_goes_through_and_finds_all_again(page, lesson, result, started, restart_kernel, axe, picture):
    lesson(page)
    assert page.locator(".kit-marker, .js-plotly-plot").count() == 0 and page.locator(RED).count() == 0
    picture(page, "lesson-00-start-1280")
    predict(page, 0, "Up to 1 °C warmer")
    page.locator(".js-plotly-plot").first.wait_for()
    page.locator(".kit-marker").wait_for()
    card(page, "A second look at your prediction").get_by_text("The run can't say yet").wait_for()
    drag(page, "response start", 300)
    mark(page)
    second = card(page, "A second look at your prediction")
    second.get_by_text(f"warmed by {result} more").wait_for()
    assert "Worth a second look: something else came out." in second.inner_text()
    predict(page, 1, "The same number")
    check = card(page, "Check yourself")
    check.get_by_text(f"{result}: the change of treated minus").wait_for()
    check.get_by_label("the treated vessel at the end").check()
    check.get_by_role("button", name="Check my answer").click()
    check.get_by_text("The idea behind this: the last temperature is the result").first.wait_for()
    check.get_by_role("button", name="Go to Step 7").click()
    assert page.evaluate("() => document.activeElement.textContent").startswith("Step 7 of 16")
    for step in (4, 6, 8, 10, 12, 14, 16):
        at_step(page, step)
        picture(page, f"lesson-00-step-{step}-1280")
    assert axe(page) == [] and page.locator(RED).count() == 0
    restart_kernel(page)
    started(page)
    page.get_by_text(f"warmed by {result} more").first.wait_for()
    page.evaluate(SAVE)
    page.reload()
    started(page)
    page.get_by_text(f"warmed by {result} more").first.wait_for()
    card(page, "Your prediction").get_by_text("Up to 1 °C warmer (fairly sure).").first.wait_for()
    page.wait_for_function(AT, arg=["baseline start", 10])


def drag(page, edge, by):
    """Drag the handle of an edge by so many pixels; the number must follow."""
    grip = page.get_by_role("slider", name=edge, exact=True)
    grip.scroll_into_view_if_needed()
    before, box = grip.get_attribute("aria-valuenow"), grip.locator("rect").first.bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + by, y, steps=6)
    page.mouse.up()
    moved = "([edge, old]) => document.querySelector(`[aria-label='${edge}']`).getAttribute('aria-valuenow') !== old"
    page.wait_for_function(moved, arg=[edge, before])
    page.wait_for_function("() => !document.querySelector('.kit-marker-waiting')")


def test_every_step_can_be_done_by_keys_alone(page, lesson, result):
    """No click anywhere: Tab to reach, Space, arrows and Enter to do. No cell is added, deleted or run by a key in a card."""
    lesson(page)
    cells = page.evaluate(CELLS)
    tab_to(page, "input[type=radio]", limit=150)
    press(page, "Space", "ArrowDown", "ArrowDown", "b", "x", "d", "d", "Enter", "Control+Enter", "Shift+Enter")
    assert page.evaluate("() => document.activeElement.value") == "c" and page.evaluate(CELLS) == cells
    tab_to(page, "input[type=radio]")
    press(page, "Space")
    tab_to(page, "textarea")
    page.keyboard.type("b d d a")
    tab_to(page, "[data-press=keep]")
    press(page, "Enter")
    card(page, "Your prediction").get_by_text("Up to 1 °C warmer (a guess).").first.wait_for()
    page.locator(".kit-marker").wait_for()
    assert page.evaluate("() => document.activeElement.textContent") == "Your prediction"
    tab_to(page, "[aria-label='response end']", limit=60)
    press(page, "End")
    for edge, minutes in EDGES:
        page.get_by_label(f"{edge}, minutes").focus()
        press(page, "Control+a", *str(minutes), "Enter")
        page.wait_for_function(AT, arg=[edge, minutes])
    page.get_by_text(f"warmed by {result} more").first.wait_for()
    tab_to(page, "[data-press=skip]", limit=60)
    press(page, "Space")
    card(page, "For your notebook", 2).wait_for()  # the last of what was kept back
    tab_to(page, "[name$=result-choice]", limit=60)
    press(page, "Space", "ArrowDown", "ArrowDown")
    tab_to(page, "[data-press=check]")
    press(page, "Enter")
    card(page, "Check yourself").get_by_text("Yes. Here is why:").first.wait_for()
    assert page.evaluate("() => document.activeElement.textContent") == "Next question"
    for _ in ("what the air run gave", "the claim"):
        tab_to(page, "textarea[rows='5']", limit=60)
    page.keyboard.type("The treated vessel warmed by more than the control.")
    tab_to(page, "[data-press=compare]")
    press(page, "Enter")
    card(page, "For your notebook", 1).get_by_text("Which note tells a reader more?").wait_for()
    assert page.evaluate(CELLS) == cells
    kinds = [(each.card, each.kind) for each in read_answers(answers_beside(lesson.folder / NAME)).answers]
    assert kinds == [
        ("00.warmer", "prediction"), ("00.nocontrol", "skipped"), ("00.result", "question"), ("00.claim", "note"), ("00.claim", "compared"),
    ]  # fmt: skip


def press(page, *keys):
    for key in keys:
        page.keyboard.press(key)


def tab_to(page, selector, limit=12):
    """Press Tab until something that matches has the focus, and see that the focus shows."""
    for _ in range(limit):
        page.keyboard.press("Tab")
        if page.evaluate("selector => document.activeElement.matches(selector)", selector):
            assert page.evaluate("() => document.activeElement.matches(':focus-visible')")
            return
    raise AssertionError(f"{selector} was not reached in {limit} presses of Tab")


def test_it_fits_a_phone_in_light_and_dark(phone, lesson, show_theme, axe, picture):
    lesson(phone)
    picture(phone, "lesson-00-start-390")
    predict(phone, 0, "1 to 3 °C warmer")
    predict(phone, 1, "A larger number")
    phone.locator(".kit-marker").wait_for()
    assert phone.evaluate("() => document.documentElement.scrollWidth") <= 390
    assert phone.evaluate(TOO_WIDE) == []
    for step in (4, 6, 8, 12, 16):
        at_step(phone, step)
        picture(phone, f"lesson-00-step-{step}-390")
    assert axe(phone) == []
    show_theme(phone, "Dark")
    at_step(phone, 8)
    picture(phone, "lesson-00-step-8-390-dark")
    assert axe(phone) == []
    show_theme(phone, "Light")


def test_two_deaths_of_the_kernel_take_no_key_from_who_types(rough_page, lesson, lab, started):
    """120 ms a key, through the death, the server's own restart (it looks every 3 s) and the new start of the lesson."""
    page, words = rough_page, "The treated vessel warmed by more than its control, and nobody but me was there to see it. "
    kernel = lesson(page)
    card(page, "For your notebook").get_by_role("textbox").click()
    for _ in range(2):
        page.keyboard.type(words[:20], delay=120)
        lab.kill_kernel(kernel)
        page.keyboard.type(words[20:], delay=120)
    started(page)
    card(page, "For your notebook").get_by_text("Kept at").wait_for()
    assert page.evaluate("() => document.activeElement.value") == 2 * words and page.locator(".jp-Dialog").count() == 0
    assert read_answers(answers_beside(lesson.folder / NAME)).latest("00.claim", "note").content["text"] == 2 * words


def test_kept_goes_at_the_first_new_key_and_comes_back(page, lesson):
    lesson(page)
    writing = card(page, "For your notebook")
    writing.get_by_role("textbox").fill("It warmed")
    writing.get_by_text("Kept at").wait_for()
    page.evaluate(KEEP_STATUS)
    page.keyboard.type(" more")
    page.wait_for_function("() => window.said.at(-1)?.startsWith('Kept at')")
    assert page.evaluate("() => window.said[0]") == ""


def test_an_answer_not_yet_kept_outlives_kernel_and_page(page, lesson, restart_kernel, started):
    lesson(page)
    asked = card(page, "Your prediction")
    asked.get_by_label("Up to 1 °C warmer").check()
    asked.get_by_label("Because").fill("gas keeps")
    for again in (restart_kernel, lambda page: page.reload()):
        again(page)
        started(page)
        page.wait_for_function("() => document.querySelector('.kit-card textarea')?.value === 'gas keeps'")
        assert card(page, "Your prediction").get_by_label("Up to 1 °C warmer").is_checked()
    predict(page, 0, "Up to 1 °C warmer")
    assert "gas keeps" in card(page, "Your prediction").inner_text()
    page.wait_for_function("() => !Object.keys(localStorage).some(key => key.endsWith('00.warmer'))")


def test_who_comes_back_another_day_finds_it_running(rough_page, lesson, started):
    page = rough_page
    lesson(page)
    page.evaluate(SAVE)
    page.evaluate("() => window.jupyterapp.shell.currentWidget.sessionContext.shutdown()")
    page.reload()
    started(page)
    page.get_by_role("button", name="Keep my prediction").first.wait_for()


def test_a_fault_is_a_box_and_no_red_text(page, open_notebook, run_all, axe):
    open_notebook(page, ["from kit import example_run, predict", "example_run('granite')"])
    run_all(page)
    box = page.get_by_role("note")
    assert box.inner_text().startswith("This needs a change first.\nThere is no example run 'granite'.") and page.locator(RED).count() == 0
    assert axe(page) == []


def test_a_lesson_draws_no_error_from_jupyterlab_itself(page, gate, lesson):
    lesson(page)
    assert gate.jupyterlabs == []
