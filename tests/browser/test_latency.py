"""How soon the number follows the hand at 20,000 readings, measured in the browser: from the move to the frame that shows the number."""

import statistics

import pytest

from tests.browser.conftest import CHECKOUT

CELLS = [
    f"import sys; sys.path.insert(0, {str(CHECKOUT)!r})\nfrom kit import mark_windows\nfrom tests.widgets.invented import invented_run",
    "marker = mark_windows(invented_run(readings=20_000), folder='latency')\nmarker",
]
MOVES = 30
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
    page, x, y = held
    for i in range(MOVES):
        page.mouse.move(x + 6 + 6 * (i % 2), y)  # to and fro, so that each is a move
        page.wait_for_function("i => window.log.sentences.length > i", arg=i)
    log = page.evaluate("() => window.log")
    for name in ("numbers", "sentences"):
        middle, most = quantile(log[name], 0.5), quantile(log[name], 0.95)
        print(f"{name} after {len(log[name])} moves: median {middle:.0f} ms, 95 % within {most:.0f} ms")
    assert log["still"] == 0, "the handle did not follow in the same frame"
    assert quantile(log["numbers"], 0.5) <= 50 and quantile(log["numbers"], 0.95) <= 100
    assert quantile(log["sentences"], 0.5) <= 150
