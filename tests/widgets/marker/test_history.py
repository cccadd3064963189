"""Undo and redo, checked against a plain list of placings that a person would keep by hand."""

from hypothesis import given
from hypothesis import strategies as st

from kit.widgets.marker.history import History

STEPS = st.lists(st.one_of(st.tuples(st.integers(0, 5), st.integers(0, 3)), st.sampled_from(["undo", "redo"])), max_size=40)


@given(STEPS)
def test_undo_and_redo_walk_a_list_of_placings(steps):
    history, trail, here, last = History(0), [0], 0, None
    for step in steps:
        if step == "undo":
            history, here, last = history.undone(), max(0, here - 1), last if here == 0 else None
        elif step == "redo":
            history, here, last = history.redone(), min(len(trail) - 1, here + 1), last if here == len(trail) - 1 else None
        else:
            placing, gesture = step
            history = history.record(placing, gesture)
            if placing != trail[here]:
                kept = trail[:here] if gesture == last else trail[: here + 1]
                trail, here, last = [*kept, placing], len(kept), gesture
        assert history.now == trail[here] and list(history.past) == trail[:here] and list(reversed(history.future)) == trail[here + 1 :]


def test_one_drag_is_taken_back_at_once():
    history = History("start")
    for place in ("a", "b", "c"):
        history = history.record(place, gesture=1)
    assert history.undone().now == "start" and history.undone().redone().now == "c"
