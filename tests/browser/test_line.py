"""The line between a view and Python: one question under way, the newest move waits, a pressed button is never dropped."""

ASK = """async steps => {
  const { lineTo } = await import('/scripts/shared/line.js');
  const sent = [], line = lineTo({ send: asked => sent.push(asked) }, 'me', () => {});
  for (const [act, what] of steps) {
    if (act === 'answer') line.heard(sent.at(-1).number);
    else line.ask({ kind: what, gesture: act }, { dropped: act !== 'press' });
  }
  line.close();
  return [sent.map(each => each.kind), line.free];
}"""


def test_of_moves_only_the_newest_waits(loader):
    steps = [["move", "a"], ["move", "b"], ["move", "c"], ["answer", ""], ["answer", ""]]
    assert loader.evaluate(ASK, steps) == [["a", "c"], True]


def test_the_last_move_of_a_gesture_is_not_dropped_by_the_next_gesture(loader):
    """Or undo would go back to a place where nothing ever rested."""
    steps = [["move", "a"], ["move", "b"], ["another", "c"], ["another", "d"], *[["answer", ""]] * 3]
    assert loader.evaluate(ASK, steps) == [["a", "b", "d"], True]


def test_no_press_is_dropped_however_quick(loader):
    steps = [["press", "undo"], ["press", "undo 2"], ["press", "undo 3"], ["move", "a"], ["move", "b"], *[["answer", ""]] * 4]
    assert loader.evaluate(ASK, steps) == [["undo", "undo 2", "undo 3", "b"], True]


def test_an_answer_to_another_view_frees_nothing(loader):
    assert loader.evaluate(ASK, [["move", "a"], ["move", "b"]]) == [["a"], False]
