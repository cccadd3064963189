"""Lesson 10: the numbers that the guide names are those of the runs and of the model."""

from kit.widgets.causes import spend_runs
from kit.widgets.causes.board import bars_of
from kit.widgets.causes.runs import FOR_SALE, name_of, weighed
from kit.widgets.inside.inside import usual
from tests.lessons.reading import LESSONS


def test_the_teachers_numbers_are_those_of_the_lesson(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    guide = (LESSONS / "teacher" / "guide.md").read_text(encoding="utf-8")
    runs = "CO2 {gas}, air {air}, argon {argon}, covered {covered} ({covered_range})"
    inside = "room air comes in again {opens} after the gas, with {left} of it left; its weight alone makes {alone} in ten minutes"
    texts = spend_runs("10", chips_step=3).numbers().texts | usual().texts
    assert f"{runs}. In the model {inside}.".format_map(texts) in guide


def test_the_guide_says_which_runs_move_a_bar():
    guide = (LESSONS / "teacher" / "guide.md").read_text(encoding="utf-8")
    moving = [name_of(kind) for kind in FOR_SALE if any(bar["before"] for bar in bars_of(weighed((kind,)), 2))]
    assert f"Runs that move a bar by themselves: {', '.join(moving)}." in guide
