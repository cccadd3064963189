"""The class's settings: what is said holds, what can't be used is named, and each reader goes by them."""

import pytest

from kit import bench_card, gas_dose, paired_effect, plan_run, simulate_run, Windows
from kit.settings import class_settings, LINES, NAME, problems_with, settings_from, settings_text

from tests.widgets.invented import invented_run

SAID = """\
[show]
temperature = "F"
[vessel]
volume_l = 0.5
depth_cm = 9
mouth_cm = 6
[lamp]
kind = "halogen"
taken_up_w = 2
[gas]
source = "acid"
bicarbonate_g = 3
acid_g = 4
[timing]
gas_at_min = 6
read_after_min = 5
[judging]
tolerance_c_per_min = 0.02
margin_c = 0.4
"""
BAD = {
    'x = 1\n[show]\ntemperature = "°C"': "line 1: x stands above the first table. It is left out.",
    '[show]\ntemperature = "warm"': """line 2: temperature can be "°C" or "°F". It was given 'warm'. It is left out.""",
    "[show]\n\nask_names = 1": "line 3: ask_names can be true or false. It was given 1. It is left out.",
    "[vessel]\ndepth_cm = 400": "line 2: depth_cm can be a number from 3 to 30 (cm). It was given 400. It is left out.",
    "[vessel]\ndepth_cm = [{a = 1}]": "line 2: depth_cm can be a number from 3 to 30 (cm). It was given [{'a': 1}]. It is left out.",
    "[vessel]\nmouth_cm = true": "line 2: mouth_cm can be a number from 1 to 20 (cm). It was given True. It is left out.",
    "[vessel]\nmouth_cm = nan": "line 2: mouth_cm can be a number from 1 to 20 (cm). It was given nan. It is left out.",
    "[lamp]\n# depth_cm = 3\ndepth_cm = 3": "line 3: [lamp] has no depth_cm. It has kind, power_w and taken_up_w. It is left out.",
    "[lamps]\nkind = 3": "line 2: there is no [lamps]. There are [show], [vessel], [lamp], [gas], [timing] and [judging]. It is left out.",
    "[lamps]": "line 1: there is no [lamps]. There are [show], [vessel], [lamp], [gas], [timing] and [judging]. It is left out.",
}


@pytest.fixture
def said(tmp_path, monkeypatch):
    """A class with settings of its own, its learners working in a folder below the file."""
    (tmp_path / NAME).write_text(SAID, encoding="utf-8")
    (tmp_path / "my-work").mkdir()
    monkeypatch.chdir(tmp_path / "my-work")


@pytest.mark.parametrize("text", BAD)
def test_a_bad_line_is_named_and_the_rest_holds(text):
    found = settings_from(f"{text}\n[timing]\ngas_at_min = 8\n")
    assert found.problems == (f"{NAME}, {BAD[text]}",) and found["gas_at_min"] == 8


def test_a_file_that_is_no_toml_leaves_what_is_usual(tmp_path):
    (tmp_path / NAME).write_text("[show\n", encoding="utf-8")
    found = class_settings(tmp_path)
    assert found["temperature"] == "°C" and not found.said
    assert found.problems[0].startswith(f"{NAME} can't be read: ") and "line 1" in found.problems[0]


@pytest.mark.parametrize("content", [b"\xff\xfe[", b""])
def test_any_bytes_are_borne(tmp_path, content):
    (tmp_path / NAME).write_bytes(content)
    assert class_settings(tmp_path)["depth_cm"] == 19


def test_the_nearest_file_counts_and_a_change_is_seen(tmp_path):
    far, near = tmp_path / "class", tmp_path / "class" / "my-work"
    near.mkdir(parents=True)
    (far / NAME).write_text("[vessel]\ndepth_cm = 11\n", encoding="utf-8")
    assert class_settings(near)["depth_cm"] == 11
    (near / NAME).write_text("[vessel]\ndepth_cm = 7.5\n", encoding="utf-8")
    assert class_settings(near)["depth_cm"] == 7.5
    (near / NAME).write_text("[vessel]\ndepth_cm = 12.25\n", encoding="utf-8")
    assert class_settings(near)["depth_cm"] == 12.25


def test_what_is_written_is_read_back():
    said = {line.name: list(line.choices)[-1] if line.choices else line.high for line in LINES}
    assert settings_from(settings_text(said)).said == said
    assert settings_from(settings_text({})).said == {} and settings_from(settings_text(said)).problems == ()


def test_the_file_that_the_kit_brings_says_nothing_yet(tmp_path):
    found = class_settings(tmp_path)
    assert found.path.parts[-3:] == ("lessons", "teacher", NAME) and found.said == {} and found.problems == ()
    assert found.path.read_text(encoding="utf-8") == settings_text({})


def test_a_form_is_told_what_may_not_stand_there():
    assert problems_with({"depth_cm": 19, "mouth_cm": 0}) == {"mouth_cm": "How wide its mouth is: a number from 1 to 20 (cm)."}


def test_the_dose_and_the_card_are_the_class_s(said):
    dose = gas_dose()
    assert dose.made_from == "3 g of bicarbonate and 4 g of citric acid" and dose.setup.vessel_l == 0.5
    assert str(bench_card(dose)) == "Bench card: 3 g of bicarbonate and 4 g of citric acid, gas at minute 6, R at minute 11."
    assert gas_dose(tablets=2, vessel_l=3).setup.vessel_l == 3


def test_the_plan_keeps_the_class_s_minutes_and_tolerance(said):
    plan = plan_run(half_width_c=0.3)
    assert plan.chosen.timing.quiet == 5 and plan.drift_c_per_min == 0.02
    assert [minute for minute, _ in plan.schedule][3] == 6 and plan.minutes == 11.5
    assert "with 5, ±" in plan.explain()


def test_the_bench_is_the_class_s(said):
    run = simulate_run(seed=1)
    assert (run.recipe.volume_l, run.recipe.depth_cm, run.recipe.mouth_cm, run.recipe.lamp) == (0.5, 9, 6, 0.5)
    assert run.minutes[-1] == pytest.approx(11.5, abs=0.1) and simulate_run(depth_cm=12).recipe.depth_cm == 12


def test_an_effect_allows_for_the_class_s_drift(said):
    run, marks = invented_run(), Windows.of_perturbation(11)
    assert paired_effect(run, marks).question.tolerance_c_per_min == 0.02
    assert paired_effect(run, marks, tolerance_c_per_min=0.01).question.tolerance_c_per_min == 0.01
