"""Every result keeps the same promise, whatever it answers."""

import json
from dataclasses import is_dataclass

import pytest

from kit import (
    Windows, band_share, bench_card, calibrate, check_steady, class_effect, compare, concept_check, example_class, example_run, fit_warming, gas_dose,
    naive_effect, paired_effect, plan_run, possible_causes, reference_run, reveal, runs_that_separate, simulate_run, weigh_causes,
)  # fmt: skip
from kit.analysis.causes.gastable import compare_gases
from kit.analysis.planet.carryover import carries_over
from kit.analysis.planet.co2record import co2_record
from kit.analysis.planet.forcings import forcing
from kit.analysis.planet.planet import planet_balance, planet_warming
from kit.analysis.planet.spectra import radiation_curves
from kit.analysis.planning.gasneed import gas_needed
from kit.analysis.thermometers.boiling import boiling_point
from kit.words import Account

MARKS = Windows.of_perturbation(11)


def effect():
    return paired_effect(example_run("basalt"), MARKS)


JUDGING = {
    "effect": effect,
    "steadiness": lambda: check_steady(example_run("basalt"), over_min=5, tolerance_c_per_min=0.01),
    "comparison": lambda: compare(effect(), paired_effect(reference_run(), MARKS), margin=0.3),
    "class": lambda: class_effect(example_class()),
    "concept check": concept_check,
    "causes": lambda: possible_causes(effect()),
    "weighed causes": lambda: weigh_causes({"gas": effect(), "covered": paired_effect(example_run("basalt-covered"), MARKS)}),
}
RESULTS = JUDGING | {
    "naive effect": lambda: naive_effect(example_run("basalt"), MARKS),
    "curve": lambda: fit_warming(example_run("basalt"), MARKS),
    "calibration": lambda: calibrate({"ice": {"treated": 0.2, "control": -0.1}, "boiling": {"treated": 99.6, "control": 99.9}}, altitude_m=200),
    "plan": lambda: plan_run(),
    "dose": lambda: gas_dose(tablets=4),
    "bench card": lambda: bench_card(gas_dose(tablets=4)),
    "need": lambda: gas_needed(60),
    "gases": compare_gases,
    "boiling point": lambda: boiling_point(altitude_m=1000),
    "carry-over": carries_over,
    "band share": lambda: band_share(2700, 2.7, 100),
    "CO2 record": co2_record,
    "planet's balance": planet_balance,
    "planet's warming": lambda: planet_warming(560),
    "spectra": radiation_curves,
    "separating runs": lambda: runs_that_separate("md"),
    "forcing": lambda: forcing(400, 278),
    "truth": lambda: reveal(simulate_run(seed=1)),
}


@pytest.fixture(scope="module", params=sorted(RESULTS))
def result(request):
    return RESULTS[request.param]()


def test_it_is_frozen_and_prints_as_a_sentence(result):
    assert is_dataclass(result) and type(result).__dataclass_params__.frozen
    assert str(result).endswith(".") and "nan" not in str(result) and "object at" not in str(result)


def test_a_notebook_shows_a_table(result):
    assert "<table" in result._repr_html_() and "<caption" in result._repr_html_()


def test_it_can_be_kept_as_json(result):
    kept = result.to_dict()
    assert kept and json.loads(json.dumps(kept, allow_nan=False)) == kept


def test_it_explains_itself_in_paragraphs_and_in_plain_text(result):
    account = result.explain()
    assert isinstance(account, Account) and repr(account) == str(account)
    lines = account.splitlines()
    assert lines and all(line.strip()[-1] in ".?:" for line in lines)
    assert account._repr_html_().count("<p>") == len(lines) and "\\n" not in account._repr_html_()


@pytest.mark.parametrize("name", sorted(JUDGING))
def test_what_judges_gives_its_reason(name):
    judged = RESULTS[name]()
    assert judged.verdict in str(judged).lower() or judged.verdict in ("warmer", "cooler")
    assert judged.reason.endswith(".")


def test_no_markup_of_a_name_runs_in_an_account():
    assert Account("<b>Basalt</b>")._repr_html_() == "<p>&lt;b&gt;Basalt&lt;/b&gt;</p>"
