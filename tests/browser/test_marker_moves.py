"""Where the marker's edges may go, tried in the browser's own script engine on many random moves."""

import pytest

LIMITS = {"low": 0, "high": 1290, "least": 2}
# 3,000 moves from a fixed generator; after each: in order, inside the record, no window narrower than the least, the others as wide as before.
TRY_MANY = """(limits) => {
  let seed = 1; const random = () => (seed = (seed * 48271) % 2147483647) / 2147483647, wrong = [];
  let edges = [30, 90, 120, 180, 210, 270];
  for (let n = 0; n < 3000; n++) {
    const k = Math.floor(6 * random()), i = k >> 1, to = 1600 * random() - 150;
    const kind = ["edge", "window", "typed"][n % 3];
    const next = { edge: movedEdge, typed: typedEdge }[kind]?.(edges, k, to, limits) ?? movedWindow(edges, i, to, limits);
    const inOrder = next.every((edge, j) => !j || edge >= next[j - 1] - 1e-6) && next[0] >= limits.low && next[5] <= limits.high;
    const wide = [0, 1, 2].every(j => width(next, j) >= limits.least - 1e-6);
    const others = [0, 1, 2].every(j => (j === i && kind !== 'window') || Math.abs(width(next, j) - width(edges, j)) < 0.002);
    const inReach = next[k] === Math.round(1000 * to) / 1000 || remarkOn(edges, next, kind === 'window' ? 2 * i : k, to, limits) !== ''
      || Math.abs(width(next, i) - limits.least) < 0.002 || kind === 'window';
    if (!(inOrder && wide && others && inReach)) wrong.push([kind, k, to, edges, next]);
    edges = next;
  }
  return wrong;
}"""


@pytest.fixture(scope="module")
def engine(loader):
    loader.evaluate("async () => Object.assign(window, await import('/scripts/marker/moves.js'), await import('/scripts/shared/drawing/scales.js'))")
    return loader


def test_no_move_makes_windows_overlap_shrink_or_leave_the_record(engine):
    assert engine.evaluate(TRY_MANY, LIMITS) == []


@pytest.mark.parametrize(
    ("typed", "seconds"),
    [
        ("10.5", 630), ("10,5", 630), ("10:30", 630), (" 0:45 ", 45), ("7", 420), ("7 min", 420), (".5", 30), ("-1", -60),
        ("", None), ("ten", None), ("1:2:3", None), ("10.5.1", None), ("1e3", None),
    ],
)  # fmt: skip
def test_minutes_are_read_as_people_type_them(engine, typed, seconds):
    assert engine.evaluate("text => secondsTyped(text)", typed) == seconds


def test_ticks_are_round_numbers_inside_the_axis(engine):
    assert engine.evaluate("ticks(0, 21.5, 5).map(tick => tick.text)") == ["0", "5", "10", "15", "20"]
    assert engine.evaluate("ticks(-0.13, 0.42, 4).map(tick => tick.text)") == ["0.0", "0.2", "0.4"]
    assert engine.evaluate("ticks(0, 12000, 2).map(tick => tick.text)") == ["0", "10,000"]
