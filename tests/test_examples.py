"""The bundled runs by name."""

import pytest

from kit.analysis.effect.paired import paired_effect
from kit.analysis.classes.pooling import class_effect
from kit.faults import Fault
from kit.examples import INVENTED, example_class, example_names, example_run, reference_run
from kit.records.windows import Windows

LESSONS_NEED = {
    "basalt", "basalt-covered", "basalt-covered-shaded", "basalt-filter", "basalt-long", "basalt-swapped", "chert-early", "dolomite",
    "flint-air", "flint-swapped", "gneiss-short", "kitchen-film", "kitchen-gas", "marble-argon", "marble-swapped", "pumice-dark",
    "pumice-shaded", "pumice-stirred", "pumice-swapped", "reference", "slate-hand",
}  # fmt: skip


def test_the_lessons_runs_are_all_there():
    assert set(example_names()) == LESSONS_NEED


@pytest.mark.parametrize("name", sorted(LESSONS_NEED))
def test_every_run_is_read_and_says_that_it_is_invented(name):
    run = example_run(name)
    assert (run.name, run.kind, run.remarks[0]) == (name, "simulated", INVENTED)


@pytest.mark.parametrize("written", ["Flint air", " flint_air ", "FLINT-AIR", "flint-air.csv"])
def test_a_name_may_be_written_as_people_do(written):
    assert example_run(written).name == "flint-air"


@pytest.mark.parametrize("name", ["granite", "../README", "", "class/basalt", 3])
def test_an_unknown_name_brings_the_list_of_the_known(name):
    with pytest.raises(Fault) as caught:
        example_run(name)
    assert str(caught.value) == (
        f"There is no example run {str(name)!r}. Choose one of basalt, basalt-covered, basalt-covered-shaded, basalt-filter, basalt-long, "
        "basalt-swapped, chert-early, dolomite, flint-air, flint-swapped, gneiss-short, kitchen-film, kitchen-gas, marble-argon, "
        "marble-swapped, pumice-dark, pumice-shaded, pumice-stirred, pumice-swapped, reference or slate-hand."
    )


@pytest.mark.parametrize("run", [example_run("basalt"), reference_run()], ids=["basalt", "reference"])
def test_after_ten_minutes_the_treated_vessel_is_about_one_and_a_half_degrees_warmer(run):
    """The size such demonstrations report: common practice, no source."""
    effect = paired_effect(run, Windows.of_perturbation(11))
    assert effect.warming.value == pytest.approx(1.5, abs=0.3)
    assert effect.verdict == "warmer"


def test_an_air_run_can_not_be_told_from_nothing():
    effect = paired_effect(example_run("flint-air"), Windows.of_perturbation(11))
    assert effect.verdict == "cannot tell"
    assert effect.warming.holds(0)


def test_the_class_has_eight_groups_that_say_they_are_invented():
    made = example_class()
    assert [run.name for run in made] == ["Basalt", "Chert", "Dolomite", "Flint", "Gneiss", "Marble", "Pumice", "Slate"]
    assert {(run.kind, run.remarks[0]) for run in made} == {("simulated", INVENTED)} and made.faults == ()


def test_the_class_differs_by_more_than_its_ranges_and_one_group_is_far_off():
    effect = class_effect(example_class(), Windows.of_perturbation(11))
    assert [share.name for share in effect.shares if share.suspect] == ["Slate"]
    others = [share.warming for share in effect.shares if not share.suspect]
    middle = sum(each.value for each in others) / len(others)
    assert sum(not warming.holds(middle) for warming in others) >= 2
