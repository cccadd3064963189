"""The plan: its laws, its words, its refusals. Against simulated classes: tests/bench/test_result_scenarios.py."""

import json

import numpy as np
import pytest

from kit import Fault, Windows, paired_effect, plan_run
from kit.analysis.planning.words import how_often
from kit.statistics.rehearsal import Wander

QUICK = Wander(correlation_s=10.0)
WISH = "The wanted half-width is how far the range may reach to each side, in °C: 0.2, say."


def test_an_easy_wish_needs_one_run():
    plan = plan_run(half_width_c=0.3, wander=QUICK)
    assert (plan.runs, plan.minutes, plan.verdict) == (1, 21.5, "within reach")
    assert str(plan) == (
        f"Plan 1 run of 21.5 min: 4 of 5 such plans get a range of at most ± {plan.chosen.half_width_c:.2f} °C, "
        "within the ± 0.30 °C that you want."
    )
    assert plan.reason.endswith("so no repeat is needed. A repeat still shows whether it happens again.")


def test_a_harder_wish_needs_repeats_with_swapped_vessels():
    plan = plan_run(half_width_c=0.05, wander=QUICK)
    assert plan.runs >= 4 and plan.chosen.swap and plan.chosen.half_width_c <= 0.05
    assert plan.reason.endswith("Swapped vessels take out the drift that place and lamp bring.")
    fewer = [each.half_width_c for each in plan.options if each.runs < plan.runs and each.timing.quiet == 10]
    assert min(fewer) > 0.05


def test_a_wish_that_cannot_be_met_is_said_to_be_so_with_what_comes_nearest():
    plan = plan_run(half_width_c=0.01, wander=QUICK)
    assert plan.verdict == "out of reach" and plan.chosen.half_width_c == min(each.half_width_c for each in plan.options)
    assert str(plan).startswith("± 0.010 °C is out of reach. 12 runs of ")


def test_more_runs_and_less_spread_never_widen():
    options = plan_run(wander=QUICK, spread_c=0.1).options
    widths = [each.half_width_c for each in options if each.runs >= 3 and not each.swap and each.timing == options[0].timing]
    assert (np.diff(widths) < 0).all()
    calm = plan_run(wander=QUICK, spread_c=0.0).options
    assert all(one.half_width_c >= other.half_width_c for one, other in zip(options, calm))


def test_a_coarse_display_needs_more(made):
    fine, coarse = (plan_run(half_width_c=0.08, wander=Wander(correlation_s=10.0, display_c=step)) for step in (0.01, 0.3))
    assert coarse.runs > fine.runs


def test_the_noise_of_a_pilot_is_taken_over(made):
    effect = paired_effect(made(), Windows.of_perturbation(11))
    plan = plan_run(half_width_c=0.1, pilot=effect)
    assert plan.wander.step_s == 2 and plan.wander.display_c == 0.01
    assert plan.wander.correlation_s == effect.noise.correlation_s
    assert plan.drift_c_per_min == abs(effect.drift.slope.value)
    assert 0.5 < np.median(plan.chosen.alone.error) / effect.warming.standard_error < 2


def test_the_chance_of_telling_grows_with_the_effect():
    plan = plan_run(half_width_c=0.05, wander=QUICK)
    chances = plan.chance_of_telling(np.array([0.0, 0.05, 0.1, 0.5]))
    assert chances[0] < 0.03 and (np.diff(chances) > 0).all() and chances[-1] > 0.999
    alone = plan_run(half_width_c=0.3, wander=QUICK)
    assert alone.runs == 1 and 0.1 < float(alone.chance_of_telling(alone.chosen.half_width_c)) < 0.9


def test_what_is_told_from_none_is_never_said_to_be_sure():
    """However likely: 'in 100 of 100' would be a promise that no number of plans can keep."""
    account = plan_run(half_width_c=0.05, wander=QUICK).explain()
    assert account.splitlines()[-1].endswith(" would be told from none nearly always.") and "100 of 100" not in account
    assert how_often(0.5) == "in about 50 of 100 such plans" and how_often(0.0) == "hardly ever"


def test_the_timetable_goes_from_lamp_on_to_lamp_off():
    minutes, steps = zip(*plan_run(wander=QUICK).schedule)
    assert list(minutes) == sorted(minutes) and (minutes[0], minutes[3]) == (0, 11)
    assert steps[0].startswith("Lamp on") and steps[3].startswith("Lead the gas into the treated vessel, and air through a like tube")
    assert "Lamp off" in steps[-1]


def test_the_gas_is_that_of_the_dose():
    assert plan_run(wander=QUICK).dose.made_from == "4 tablets"
    assert plan_run(wander=QUICK, tablets=2, vessel_l=1.0).dose.setup.vessel_l == 1.0
    assert plan_run(wander=QUICK, bicarbonate_g=5, acid_g=5).dose.made_from == "5 g of bicarbonate and 5 g of citric acid"


def test_the_safety_list_ends_with_the_adult():
    assert str(plan_run(wander=QUICK).cautions[-1]) == "Your local rules come first. A qualified adult decides."
    assert {"lamp", "alone", "way out", "ventilate"} <= {caution.code for caution in plan_run(wander=QUICK).cautions}


def test_the_account_says_what_was_taken_for_chance():
    account = plan_run(half_width_c=0.05, wander=QUICK).explain().splitlines()
    assert account[0] == (
        "Taken for chance: the difference wanders by 0.020 °C, readings 10 s apart still agree, "
        "the display moves in steps of 0.010 °C, one reading every 2 s."
    )
    assert account[2].endswith("So keep the whole record.")


def test_it_is_kept_as_json_and_shown_as_a_table():
    plan = plan_run(wander=QUICK)
    kept = json.loads(json.dumps(plan.to_dict()))
    assert kept["runs"] == plan.runs and kept["schedule"][0][0] == 0
    assert "Lamp on" in plan._repr_html_()


@pytest.mark.parametrize(
    "settings, message",
    [
        ({"half_width_c": 0}, f"{WISH} It was given 0."),
        ({"half_width_c": float("nan")}, f"{WISH} It was given nan."),
        ({"wander": Wander(sd_c=0.0)}, "sd_c of the wander can't be 0 here. Give 1e-06 to 5."),
        ({"spread_c": -1}, "spread_c can't be -1. Give zero or a positive number."),
        ({"pilot": 3}, "The pilot holds no noise to plan with. Give an effect that has a number: paired_effect(run, windows)."),
    ],
)
def test_a_wish_that_makes_no_sense_is_refused(settings, message):
    with pytest.raises(Fault) as fault:
        plan_run(**settings)
    assert str(fault.value) == message
