"""Runs that separate causes: those for which they predict different results."""

import pytest

from kit.analysis.causes.possible import possible_causes
from kit.analysis.causes.predictions import prediction
from kit.analysis.causes.separating import runs_that_separate
from kit.estimate import Estimate
from kit.faults import Fault


def test_the_mouth_and_the_lit_thermometer_are_told_apart_by_film_and_by_foil():
    found = runs_that_separate("md")
    assert found.kinds[:2] == ("covered", "shaded") and "air" not in found.kinds and "swapped" not in found.kinds


def test_what_absorbs_and_what_does_not_are_told_apart_by_argon():
    assert "argon" in runs_that_separate("am").kinds and "swapped" in runs_that_separate("bf").kinds


def test_a_run_in_which_hardly_anything_is_left_of_either_tells_them_not_apart():
    """A fan blows the gas out (the model): under 4 % is left of what the mouth does, nothing of the lit thermometer. Nobody measures that."""
    assert "stirred" not in runs_that_separate("md").kinds and "stirred" not in runs_that_separate("abcdefm", one="m").kinds[:3]


def test_where_one_cause_could_do_it_the_runs_that_single_it_out_come_first():
    assert runs_that_separate("abcdefm", one="m").kinds[:2] == ("dark", "covered")
    assert possible_causes(Estimate.from_error(1.6, 0.02, 2)).next_runs[:2] == ("dark", "covered")


@pytest.mark.parametrize("causes", ["md", ["d", "m"], "dm"])
def test_causes_may_be_named_in_any_way(causes):
    assert runs_that_separate(causes).letters == ("m", "d")


def test_every_run_it_names_predicts_ranges_that_do_not_meet():
    for kind in runs_that_separate("ma"):
        one, other = prediction("m", kind), prediction("a", kind)
        assert one.low > other.high or other.low > one.high


def test_it_says_itself_and_what_each_cause_predicts():
    found = runs_that_separate("md")
    assert str(found).startswith("To tell less exchange through the mouth (m) and thermometer in the beam (d) apart, best first: film over ")
    assert "film over both mouths once the gas is in: m gone, d more." in found.explain()
    assert "m gone, d more" in found._repr_html_() and found.to_dict()["kinds"][0] == "covered"


def test_an_unknown_letter_is_refused_with_the_list_and_one_alone_too():
    with pytest.raises(Fault) as caught:
        runs_that_separate("zm")
    assert str(caught.value).startswith("No cause has the letter 'z'. Causes: less exchange through the mouth (m), thermometer in the beam (d),")
    with pytest.raises(Fault) as caught:
        runs_that_separate("m")
    assert str(caught.value) == "Name two causes or more, so that there is something to tell apart: runs_that_separate('md')."


def test_one_must_be_among_the_causes_named():
    with pytest.raises(Fault) as caught:
        runs_that_separate("md", one="a")
    assert str(caught.value) == "'a' is none of the causes named: m and d."
