"""A lesson starts by itself, at the place where its learner is, if its code is the kit's own; else one button starts it. By mouse, touch, key."""

import json
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import urlopen

import pytest

from kit.coursework import Answer, add_answer, answers_beside, LESSONS, peek_at_answers

NAME = "00-your-first-run.ipynb"
BUTTON = "Start this lesson"
TOP = "() => document.querySelector('.jp-WindowedPanel-outer').scrollTop"
UPPER_HALF = """words => {
  const head = [...document.querySelectorAll('.jp-Notebook h2, .jp-Notebook h3')].find(each => each.textContent.startsWith(words));
  const y = head?.getBoundingClientRect().y; // what throws here would end the wait
  return y > 0 && y < innerHeight / 2;
}"""
RAN = """() => window.jupyterapp.shell.currentWidget.content.widgets
  .filter(cell => cell.model.type === 'code' && cell.model.executionCount).length"""
ANSWERS = """async () => { const asked = window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.requestExecute({ code: '1' });
  return (await asked.done).content.status; }"""

# Every script of a widget takes three seconds longer to load.
SLOW = """() => {
  window.quick = URL.createObjectURL;
  const late = script => new Blob(["await new Promise(done => setTimeout(done, 3000));\\n", script], { type: script.type });
  URL.createObjectURL = blob => window.quick.call(URL, blob.type === "text/javascript" ? late(blob) : blob);
}"""


@pytest.fixture
def folder(own_copy):
    """A folder of its own with a fresh lesson in it."""
    return own_copy(LESSONS / NAME)


def state(page, which):
    page.wait_for_selector(f".jp-NotebookPanel[data-kit-lesson={which}]:not(.lm-mod-hidden)")


def drawn(page):
    """Wait until the lesson has run and its cards are drawn, which comes a little later."""
    state(page, "ready")
    page.wait_for_function("() => document.querySelectorAll('.kit-card').length >= 5")


def heading_in_view(page, words):
    """Wait until the heading that begins so stands in the upper half of the window."""
    page.wait_for_function(UPPER_HALF, arg=words)


def changed(path, source):
    """Change the code of a lesson's second code cell."""
    book = json.loads(path.read_text(encoding="utf-8"))
    next(cell for cell in book["cells"] if cell["id"] == "00-look")["source"] = [source]
    path.write_text(json.dumps(book), encoding="utf-8")


def test_it_starts_and_stays_at_the_top(page, open_notebook, folder):
    open_notebook(page, f"{folder.name}/{NAME}")
    drawn(page)
    page.wait_for_timeout(500)
    assert page.evaluate(TOP) == 0 and page.get_by_role("button", name=BUTTON).count() == 0


def test_who_comes_back_stands_at_the_first_step_not_yet_done(page, open_notebook, folder):
    for card, kind in (("00.warmer", "prediction"), ("00.warmer", "second look")):
        add_answer(answers_beside(folder / NAME), Answer(card, kind, {"choice": "c", "words": "Up to 1 °C warmer", "sure": "sure"}))
    open_notebook(page, f"{folder.name}/{NAME}")
    drawn(page)
    heading_in_view(page, "Step 6 of")
    page.get_by_label("This lesson").get_by_text("kept 1 of 2 predictions, 0 of 5 questions").wait_for()
    page.reload()
    drawn(page)
    heading_in_view(page, "Step 6 of")


def test_a_restart_brings_the_cards_back_and_leaves_the_page_where_it_is(page, open_notebook, restart_kernel, folder):
    open_notebook(page, f"{folder.name}/{NAME}")
    drawn(page)
    page.get_by_role("heading", name="Step 6 of").evaluate("head => head.scrollIntoView()")
    before = page.evaluate(TOP)
    restart_kernel(page)
    drawn(page)
    page.wait_for_timeout(500)
    assert page.evaluate(TOP) == pytest.approx(before, abs=4)


@pytest.mark.parametrize("way", ["mouse", "touch", "key"])
def test_a_changed_lesson_waits_for_its_button(way, page, tablet, open_notebook, folder):
    changed(folder / NAME, 'run = example_run("basalt")\nchart(run)')
    page = tablet if way == "touch" else page
    open_notebook(page, f"{folder.name}/{NAME}")
    state(page, "changed")
    page.wait_for_timeout(500)
    assert page.evaluate(RAN) == 0
    button = page.get_by_role("button", name=BUTTON)
    if way == "key":
        button.focus()
        page.keyboard.press("Enter")
    else:
        button.tap() if way == "touch" else button.click()
    state(page, "ready")
    page.locator(".js-plotly-plot").wait_for()
    assert button.count() == 0


def test_what_failed_says_so_and_starts_again_when_it_is_mended(page, open_notebook, folder, picture):
    texts = folder / "00-your-first-run.toml"
    texts.write_text("title = unquoted", encoding="utf-8")
    open_notebook(page, f"{folder.name}/{NAME}")
    state(page, "failed")
    page.get_by_text("This needs a change first.").wait_for()
    picture(page, "lesson-00-failed-1280")
    texts.unlink()
    page.get_by_role("button", name=BUTTON).click()
    state(page, "ready")
    assert page.get_by_text("This needs a change first.").count() == 0


def test_code_that_is_not_the_kits_never_runs_by_itself(page, open_notebook):
    open_notebook(page, ["open('traces', 'w').write('ran')"])
    page.wait_for_timeout(2000)
    assert page.evaluate(RAN) == 0 and page.get_by_label("This lesson").count() == 0


@pytest.mark.parametrize("wait_ms", [500, 3100])
def test_a_restart_that_meets_the_servers_own_leaves_a_lesson_that_runs(wait_ms, rough_page, lab, open_notebook, restart_kernel, folder):
    """Half a second after Python died the server has not seen it yet; at 3.1 s it is just starting Python again."""
    page = rough_page
    kernel = open_notebook(page, f"{folder.name}/{NAME}")
    state(page, "ready")
    lab.kill_kernel(kernel)
    page.wait_for_timeout(wait_ms)
    restart_kernel(page)
    drawn(page)
    assert page.evaluate(ANSWERS) == "ok"


def test_start_again_gives_a_lesson_without_answers_and_keeps_the_old_ones(page, open_notebook, folder):
    add_answer(answers_beside(folder / NAME), Answer("00.warmer", "skipped"))
    open_notebook(page, f"{folder.name}/{NAME}")
    state(page, "ready")
    page.get_by_role("button", name="Start again with a fresh copy").click()
    page.wait_for_function("() => window.jupyterapp.shell.currentWidget.context.path.endsWith('-2.ipynb')")
    state(page, "ready")
    page.get_by_role("button", name="Keep my prediction").first.wait_for()
    assert peek_at_answers(answers_beside(folder / NAME)).latest("00.warmer", "skipped")
    assert not answers_beside(folder / "00-your-first-run-2.ipynb").exists()


def test_a_lesson_that_is_renamed_keeps_its_answers_and_marks(page, open_notebook, folder):
    marks, other = (folder / "marks" / f"{16 * 'a'}-{name}.json" for name in (Path(NAME).stem, "other"))
    marks.parent.mkdir()
    marks.touch(), other.touch()
    open_notebook(page, f"{folder.name}/{NAME}")
    state(page, "ready")
    page.get_by_role("button", name="Skip, show me").first.click()
    page.get_by_text("You chose to look first.").first.wait_for()
    page.evaluate("path => window.jupyterapp.shell.currentWidget.context.rename(path)", "mine.ipynb")
    page.wait_for_function("() => document.querySelector('[data-kit-lesson]').dataset.kitLesson !== 'ready'")
    state(page, "ready")
    page.get_by_role("button", name="Skip, show me").last.click()
    page.get_by_text("You chose to look first.").nth(2).wait_for()
    kept = peek_at_answers(answers_beside(folder / "mine.ipynb"))
    assert [each.card for each in kept.answers] == ["00.warmer", "00.nocontrol"] and not answers_beside(folder / NAME).exists()
    assert sorted(each.name for each in marks.parent.glob("*.json")) == [f"{16 * 'a'}-mine.json", other.name]


def test_a_slow_computer_shows_its_cards_and_what_python_says_of_them(page, lesson, open_notebook):
    open_notebook(page, ["1"])
    page.evaluate(SLOW)
    lesson(page)
    page.get_by_role("button", name="Skip, show me").first.click()
    page.get_by_text("You chose to look first.").first.wait_for()
    page.evaluate("() => { URL.createObjectURL = window.quick; }")


def test_a_text_of_the_lesson_is_not_turned_into_its_source(page, open_notebook, folder):
    open_notebook(page, f"{folder.name}/{NAME}")
    state(page, "ready")
    text = page.get_by_role("paragraph").filter(has_text="One lamp shines on two vessels.")
    text.dblclick()
    page.keyboard.press("Enter")
    page.wait_for_timeout(300)
    assert text.is_visible() and page.locator(".jp-MarkdownCell .jp-Editor:visible").count() == 0


def test_the_server_tells_nothing_without_its_token(lab):
    with pytest.raises(HTTPError) as refused:
        urlopen(f"{lab.landing.split('/lab')[0]}/twin-vessels/lesson?path=x&cell=00-title", timeout=10)
    assert refused.value.code == 403
