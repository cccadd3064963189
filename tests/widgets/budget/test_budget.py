"""The budget as bars to pull down: what is left of the range is what the effect's own parts say, and the marker's windows are followed."""

import json
from dataclasses import replace
from math import hypot

import pytest

from kit import budget_view, example_run, Fault, mark_windows, paired_effect, suggest_windows, Windows
from kit.analysis.effect import warming_with
from kit.statistics import coverage_factor
from tests.widgets.invented import invented_run
from tests.widgets.parts import move


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)


@pytest.fixture(scope="module")
def early():
    run = example_run("chert-early")
    return paired_effect(run, suggest_windows(run))


@pytest.fixture(scope="module")
def by_hand():
    return paired_effect(example_run("slate-hand"), Windows.of_perturbation(11), gain_uncertainty=0.02)


def test_with_every_bar_up_the_range_is_the_effects_own(early, by_hand):
    for effect in (early, by_hand):
        whole = warming_with(effect, {})
        assert (whole.low, whole.high) == pytest.approx((effect.warming.low, effect.warming.high))


def test_without_drift_the_range_is_that_of_chance_by_the_gum(by_hand):
    """Uncertainties add in squares, expanded by Student's t: GUM (JCGM 100:2008) 5.1.2 and G.3."""
    left = warming_with(by_hand, {"drift": 0})
    parts = by_hand.warming.parts
    assert left.half_width == pytest.approx(coverage_factor(0.95, parts.dof) * hypot(parts.error, parts.gain), rel=1e-3)
    display = by_hand.noise.display_c
    alone = warming_with(by_hand, {"drift": 0, "noise": 0, "calibration": 0})
    assert alone.half_width == pytest.approx(coverage_factor(0.95, parts.dof) * display, rel=1e-3)


def test_a_large_bar_moves_the_range_much_and_a_small_one_hardly(early):
    view = budget_view(early)
    whole = early.warming.half_width
    assert view.answer["bars"][0]["name"] == "drift" and [bar["size"] for bar in view.answer["bars"]] == sorted([b["size"] for b in view.answer["bars"]])[::-1]
    small, large = (_width(move(view, **pulled)) for pulled in ({"noise": 0}, {"noise": 100, "drift": 0}))
    assert small > 0.9 * whole and large < 0.2 * whole
    json.dumps(view.answer, allow_nan=False)


def _width(answer):
    left = answer["dots"][1]
    return (left["high"] - left["low"]) / 2


def test_what_was_pulled_down_is_said_with_what_would_really_shrink_it(early):
    view = budget_view(early)
    assert "Pull one down." in view.answer["sentence"]
    said = move(view, drift=50)["sentence"]
    assert "With drift at 50 %" in said and early.budget[0].remedy in said


def test_what_makes_next_to_nothing_has_a_bar_and_no_grip(early):
    view = budget_view(early)
    assert {bar["name"] for bar in view.answer["bars"]} - set(view.values) == {"display", "calibration"}


def test_a_jump_can_be_pulled_down_too():
    run = example_run("basalt")
    lifted = run.readings.copy()
    lifted.loc[15 * 60 :, "treated"] += 0.3
    effect = paired_effect(replace(run, readings=lifted), Windows.of_perturbation(11))
    assert "jump" in [line.name for line in effect.budget]
    left = warming_with(effect, {"jump": 0})
    assert left.half_width < effect.warming.half_width


def test_it_follows_the_windows_of_a_marker_when_they_rest():
    marker = mark_windows(invented_run(400, 20, name="harbour"))
    box = budget_view(marker)
    marker.windows = Windows((5, 6), (6, 7), (15, 16))
    first = box.children[0]
    assert first.values["noise"] == 100 and first.answer["dots"][0]["y"] == pytest.approx(marker.effect.warming.value)


def test_without_a_range_it_says_why():
    class Unmarked:
        effect = None

        def observe(self, *_):
            pass

    assert "Place the three windows" in budget_view(Unmarked()).children[0].blocks[0]["text"]
    with pytest.raises(Fault, match="no 'wind'"):
        run = example_run("basalt")
        warming_with(paired_effect(run, Windows.of_perturbation(11)), {"wind": 0})


def test_a_class_that_reads_fahrenheit_sees_the_range_in_it(early, tmp_path):
    before = budget_view(early).answer
    (tmp_path / "class-settings.toml").write_text('[show]\ntemperature = "°F"\n', encoding="utf-8")
    after = budget_view(early).answer
    assert "°C" not in json.dumps({**after, "table": ""}, ensure_ascii=False) and after["dots"][0]["low"] == pytest.approx(1.8 * before["dots"][0]["low"])
