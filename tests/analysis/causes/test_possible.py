"""The budget of causes: one run's effect beside what each cause can make, and never one cause by assertion."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.analysis.causes.bounds import LIMITS_C
from kit.analysis.causes.possible import possible_causes
from kit.analysis.causes.published import PUBLISHED
from kit.estimate import Estimate
from kit.faults import Fault

MEASURED = Estimate.from_error(1.53, 0.03, 2.2)


def sizes(**given):
    return {cause.rival.letter: (cause.size.low, cause.size.high) for cause in possible_causes(**given).causes}


def test_without_a_known_bench_sizes_are_the_stated_limits():
    assert sizes() == {letter: pytest.approx(ends) for letter, ends in LIMITS_C.items()}


def test_a_known_bench_narrows_them_and_shuts_out_what_it_lacks():
    known = sizes(vessel={"mouth_cm": 6.5, "exchange": 1, "probe_k": 0.3, "taken_w": 0, "card_w": 0.1})
    assert known["a"] == (0, 0) and known["d"][1] < 0.2 and known["m"][1] < 4
    assert all(LIMITS_C[letter][0] <= low <= high <= LIMITS_C[letter][1] for letter, (low, high) in known.items())


def test_argon_takes_up_nothing():
    argon = possible_causes(gas="argon")
    assert argon.causes[3].reason == "There is none: argon takes up no infrared."
    assert sizes(gas="argon")["a"] == sizes(gas="argon")["b"] == (0, 0) and sizes(gas="argon")["m"][1] > 3


def test_plain_air_leaves_only_the_handling():
    air = sizes(gas="air")
    assert air.pop("f") == (-0.3, 0.3) and set(air.values()) == {(0, 0)}


def test_an_air_run_replaces_the_guess_of_the_disturbance():
    budget = possible_causes(MEASURED, air_run=Estimate.from_error(0.04, 0.03, 2))
    cause = next(each for each in budget.causes if each.rival.letter == "f")
    assert (cause.size.low, cause.size.high) == pytest.approx((-0.02, 0.10))
    assert cause.standing == "too small alone" and "air run" in cause.reason


@settings(max_examples=40)
@given(st.floats(-3, 3), st.floats(0.01, 0.5))
def test_sizes_never_settle_a_cause(value, error):
    budget = possible_causes(Estimate.from_error(value, error, 2))
    assert budget.verdict == "cannot tell" and "several could together" in budget.reason and budget.next_runs
    assert not re.search(r"\b(because of|caused by|proves?|shows that|must be)\b", str(budget))


def test_the_sentence_names_reach_and_the_runs_that_tell():
    small = Estimate.from_error(0.55, 0.02, 2)
    assert possible_causes(small).could_alone == ("m", "d", "a")
    assert str(possible_causes(small)) == (
        "Why it got warmer: cannot tell from sizes. Of 7 causes, less exchange through the mouth (m), thermometer in the beam (d) and lamp light "
        "taken up (a) could reach 0.55 °C (95 %: 0.51 to 0.59 °C) alone; several could "
        "together. Runs that tell them apart: foil between lamp and both thermometers; film over both mouths once the gas is in; "
        "film over both mouths with foil over both thermometers."
    )


def test_an_effect_without_a_number_is_not_compared():
    budget = possible_causes(Estimate.undetermined())
    assert {each.standing for each in budget.causes} == {"not compared"}
    assert budget.reason.startswith("No effect with a range was given.")


def test_published_work_is_cited_no_stronger_than_it_was_read():
    assert [each.doi for each in PUBLISHED] == ["10.1119/1.3322738", "10.1088/0143-0807/35/2/025016", "10.1098/rsos.192075"]
    assert all("not the paper" in each.read or "Not read" in each.read for each in PUBLISHED)


@pytest.mark.parametrize(
    "given, message",
    [
        ({"gas": "neon"}, "The gas 'neon' is not known. Known: CO2, argon and air."),
        ({"vessel": {"card_w": -1}}, "card_w can't be -1 W here. Give 0 to 20 W."),
    ],
)
def test_what_cannot_be_is_refused(given, message):
    with pytest.raises(Fault) as caught:
        possible_causes(MEASURED, **given)
    assert str(caught.value) == message
