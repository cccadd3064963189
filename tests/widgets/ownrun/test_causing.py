"""What was done in each of several own runs is said once, and then their causes are weighed together."""

import pytest

from kit import Windows, example_run, own_run, paired_effect, weigh_causes
from kit.widgets.cards.keeping import keeping_at
from tests.report.conftest import bring
from tests.widgets.parts import block_of, press, words

MARKS = Windows.of_perturbation(11)


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    keeping_at.cache_clear()
    return tmp_path


def test_one_run_is_judged_by_sizes_until_another_is_there():
    bring("basalt", "our-co2.csv")
    step = own_run().causes()
    assert "cannot tell from sizes" in words(step.card) and "possible_causes(effect)" in block_of(step.code, "code")["code"]
    assert press(step.card, "say") == "Choose what was done first."


def test_runs_of_which_it_was_said_what_was_done_are_weighed_together():
    bring("basalt-covered", "our-covered.csv", "covered")
    bring("basalt", "our-co2.csv")
    own = own_run()
    step = own.causes()
    assert press(step.card, "say", done="gas") == ""
    effects = {kind: paired_effect(example_run(name), MARKS) for kind, name in (("gas", "basalt"), ("covered", "basalt-covered"))}
    assert str(weigh_causes(effects)) in words(step.card)
    scope = {"effect": own.effect}
    exec(f"from kit import paired_effect\n{block_of(step.code, 'code')['code'].replace('weigh_causes({', 'found = weigh_causes({')}", scope)
    assert str(scope["found"]) == str(weigh_causes(effects))


def test_without_a_co2_run_nothing_is_weighed():
    bring("basalt-covered", "our-covered.csv", "covered")
    bring("flint-air", "our-air.csv", "air")
    assert "weighed together" not in words(own_run().causes().card)
