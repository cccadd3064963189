"""The view of one's own glass: it says what the model's course says, in words that a learner can act on."""

import pytest

from kit import example_run, glass_view, paired_effect
from kit.bench import glass_course
from kit.widgets.kitchen.kitchen import GRIPS, kitchen_numbers, RUNS, span
from tests.widgets.parts import move


@pytest.fixture
def view():
    return glass_view()


@pytest.mark.parametrize("lid", ["gas", "film"])
@pytest.mark.parametrize("end", ["low", "high"])
def test_it_answers_at_the_ends_of_its_grips(view, end, lid):
    answer = move(view, **{grip.name: getattr(grip, end) for grip in GRIPS if hasattr(grip, "low")}, lid=lid)
    assert "trouble" not in answer and 0 <= answer["share"] <= 1 and max(map(max, (each["y"] for each in answer["lines"]))) <= answer["span"][1]


def test_it_says_the_minutes_and_the_size_of_the_model(view):
    course = glass_course(14, 6, 40)
    answer = move(view, depth_cm=14, mouth_cm=6, water_c=40)
    assert answer["bands"] == [{"from": course.ready_min, "to": course.gone_min, "name": "read here"}]
    assert f"Read from minute {course.ready_min:g} to {course.gone_min:g} after the gas. Expect {span(*course.size_c)} more" in answer["sentence"]
    assert "computed" in str(answer["numbers"]) and "nobody has measured it" in view.help


def test_a_flat_cup_has_no_minute_to_read_but_takes_film(view):
    answer = move(view, depth_cm=4)
    assert "No minute to read" in answer["sentence"] and answer["bands"] == [] and answer["numbers"][0] == ("minutes to read", "none")
    assert "to the end after the film" in move(view, lid="film")["sentence"]


def test_few_minutes_call_for_a_reading_every_half_minute(view):
    assert "read every half minute" in move(view, depth_cm=7)["sentence"] and "half minute" not in move(view, depth_cm=14)["sentence"]


def test_its_numbers_are_the_effects_of_the_bundled_runs():
    film, gas = (paired_effect(example_run(name), windows) for name, windows in RUNS.values())
    numbers = kitchen_numbers()
    assert numbers.values == {"film": film.warming.value, "lids": "like"} and gas.warming.value > 0.75 * film.warming.value
    assert numbers.texts["late_verdict"] == "cannot tell" and numbers.texts["gas_sentence"] == str(gas)


@pytest.mark.parametrize(("ends", "said"), [((0.83, 3.9), "0.8 to 4 °C"), ((3.5, 8.9), "4 to 9 °C")])
def test_sizes_are_said_no_finer_than_the_model_is(ends, said):
    assert span(*ends) == said
