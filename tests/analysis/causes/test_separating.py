"""Runs that separate causes: those for which they predict different results."""

import pytest

from kit.analysis.causes.predictions import prediction
from kit.analysis.causes.separating import runs_that_separate
from kit.faults import Fault


def test_the_mouth_and_the_lit_thermometer_are_told_apart_by_film_and_by_foil():
    found = runs_that_separate("md")
    assert found.kinds[:2] == ("covered", "shaded") and "air" not in found.kinds and "swapped" not in found.kinds


def test_what_absorbs_and_what_does_not_are_told_apart_by_argon():
    assert "argon" in runs_that_separate("am").kinds and "swapped" in runs_that_separate("bf").kinds


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
