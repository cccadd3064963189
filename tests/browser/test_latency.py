"""How soon the number follows the hand at 20,000 readings, measured in the browser: from the move to the frame that shows the number."""

import statistics

import pytest

from tests.browser.conftest import CHECKOUT

CELLS = [
    f"import sys; sys.path.insert(0, {str(CHECKOUT)!r})\nfrom kit import mark_windows\nfrom tests.widgets.invented import invented_run",
    "marker = mark_windows(invented_run(readings=20_000), folder='latency')\nmarker",
]
MOVES = 30
pytestmark = pytest.mark.alone
# The aim, met on a quiet machine of two cores: numbers in the frame of the move (17 ms in the median, 34 ms for 95 %), sentences
# within 100 ms. The figures are printed. What fails is half as much again, so that a slower machine that works rightly is not called broken.
NUMBER_MS, NUMBER_MOST_MS, SENTENCE_MS = 26, 51, 150
# A move is the browser's own pointermove. Its time is taken before any listener of the page hears it; the handle is looked at when
# they all have, in the same frame; the number and the sentence count when the frame after they were written begins.
MEASURE = """() => {
  const root = document.querySelector('.kit-marker'), handle = root.querySelectorAll('.kit-marker-grip')[4];
  const log = window.log = { numbers: [], sentences: [], still: 0 };
  let moved = null, rested = null, stood = null;
  window.addEventListener('pointermove', () => { moved = rested = performance.now(); stood = handle.getAttribute('transform'); }, true);
  window.addEventListener('pointermove', () => { if (handle.getAttribute('transform') === stood) log.still++; });
  const painted = done => requestAnimationFrame(() => done(performance.now()));
  const number = root.querySelector('.kit-marker-value strong'), sentence = root.querySelector('.kit-marker-sentence');
  new MutationObserver(() => { if (moved !== null) { const from = moved; moved = null; painted(now => log.numbers.push(now - from)); } })
    .observe(number, { childList: true });
  new MutationObserver(() => { if (rested !== null && !sentence.textContent.includes('being worked out')) {
    const from = rested; rested = null; painted(now => log.sentences.push(now - from)); } }).observe(sentence, { childList: true });
}"""

# The same for a lesson's view: from a key on the grip to the frame that shows the next sentence.
VIEW_MS = 75
MEASURE_VIEW = """async name => {
  const view = document.querySelector('.kit-view'), sentence = view.querySelector('.kit-sentence'), times = [];
  const grip = [...view.querySelectorAll('[role=slider]')].find(each => each.getAttribute('aria-label') === name);
  for (let i = 0; i < 30; i++) {
    const changed = new Promise(done => {
      new MutationObserver((_, seen) => { seen.disconnect(); done(); }).observe(sentence, { childList: true, characterData: true, subtree: true });
    });
    const from = performance.now();
    grip.dispatchEvent(new KeyboardEvent('keydown', { key: i % 2 ? 'ArrowLeft' : 'ArrowRight', shiftKey: true, bubbles: true }));
    await changed;
    await new Promise(done => requestAnimationFrame(done));
    times.push(performance.now() - from);
    await new Promise(done => setTimeout(done, 60));
  }
  return times;
}"""
# Each view at its most laborious: the code that shows it there, and the grip that moves.
VIEWS = {"energy": ("view = energy_view(); view.move(lamp_w=8, mouth_cm=9, glass_mm=3, minute=30)\nview", "mouth")}

# The least that any answer takes here and now: a question that Python has the answer to already, 30 times.
EMPTY = """async () => {
  const kernel = window.jupyterapp.shell.currentWidget.sessionContext.session.kernel, times = [];
  for (let i = 0; i < 30; i++) {
    const asked = performance.now();
    await kernel.requestKernelInfo();
    times.push(performance.now() - asked);
    await new Promise(done => setTimeout(done, 100));
  }
  return times;
}"""


def quantile(values, share):
    return statistics.quantiles(values, n=100, method="inclusive")[round(100 * share) - 1]


@pytest.fixture
def held(page, open_notebook, run_all):
    """A page on which the mouse holds the response's start, and where it is."""
    open_notebook(page, CELLS)
    run_all(page)
    page.wait_for_selector(".kit-marker")
    page.locator(".kit-marker").evaluate("each => each.scrollIntoView()")
    box = page.locator(".kit-marker-flag").nth(4).bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.evaluate(MEASURE)
    page.mouse.down()
    yield page, x, y
    page.mouse.up()


def test_the_number_follows_a_move_at_once_and_its_range_when_the_hand_rests(held):
    """Up to three rounds: another program that takes the processor for a while says nothing about the marker."""
    rounds, empty = [], held[0].evaluate(EMPTY)
    print(f"an empty question to Python is answered after: median {quantile(empty, 0.5):.0f} ms, 95 % within {quantile(empty, 0.95):.0f} ms")
    for _ in range(3):
        rounds.append(figures_of_a_round(*held))
        if meets_the_bars(rounds[-1]):
            break
    assert meets_the_bars(rounds[-1]), rounds


def figures_of_a_round(page, x, y):
    page.evaluate("() => { window.log.numbers = []; window.log.sentences = []; }")
    for i in range(MOVES):
        page.mouse.move(x + 6 + 6 * (i % 2), y)  # to and fro, so that each is a move
        page.wait_for_function("i => window.log.sentences.length > i", arg=i)
    log = page.evaluate("() => window.log")
    assert log["still"] == 0, "the handle did not follow in the same frame"
    figures = {name: (quantile(log[name], 0.5), quantile(log[name], 0.95)) for name in ("numbers", "sentences")}
    for name, (middle, most) in figures.items():
        print(f"{name} painted after a move: median {middle:.0f} ms, 95 % within {most:.0f} ms, {len(log[name])} moves at 20,000 readings")
    return figures


def meets_the_bars(figures):
    (number, number_most), (sentence, _) = figures["numbers"], figures["sentences"]
    return number <= NUMBER_MS and number_most <= NUMBER_MOST_MS and sentence <= SENTENCE_MS


@pytest.mark.parametrize("name", VIEWS)
def test_a_lessons_view_answers_while_the_hand_moves(page, open_notebook, run_all, name):
    code, grip = VIEWS[name]
    open_notebook(page, [f"import sys; sys.path.insert(0, {str(CHECKOUT)!r})\nfrom kit.widgets.{name} import {name}_view", code])
    run_all(page)
    page.wait_for_selector(".kit-view")
    middle = min(quantile(page.evaluate(MEASURE_VIEW, grip), 0.5) for _ in range(2))
    print(f"{name}: the answer is painted after {middle:.0f} ms in the median")
    assert middle <= VIEW_MS
