"""Is it steady: verdicts, words, waits and refusals. How often the verdicts are right stands in tests/bench/test_scenarios.py."""

import json
from dataclasses import replace

import numpy as np
import pytest

from kit import Fault, check_steady, example_run

ASKED = {"over_min": 10, "tolerance_c_per_min": 0.01}


def test_a_quiet_start_is_steady_and_says_how_steady(made):
    steady = check_steady(made(), until_min=11, **ASKED)
    assert steady.verdict == "steady" and steady.wait_min.high == 0
    assert str(steady).startswith("Steady: over 10 min the difference drifted by no more than 0.00")
    assert str(steady).endswith(" °C/min (95 %), less than the tolerance of 0.01.")


def test_a_plain_drift_is_drifting_with_its_range(made):
    drifting = check_steady(made(drift=0.05), until_min=11, **ASKED)
    assert drifting.verdict == "drifting" and drifting.slope.holds(0.05)
    assert str(drifting) == f"Drifting: over 10 min the difference drifted by {drifting.slope.text}, more than the tolerance of 0.01."


def test_two_minutes_that_look_level_cannot_tell(made):
    level = check_steady(made(), over_min=2, tolerance_c_per_min=0.02, until_min=10)
    assert level.verdict == "cannot tell" and level.wait_min.low >= 3
    assert level.reason == (
        f"over 2 min the difference drifted by {level.slope.text}. 2 min are too few to call anything steady; watch 5 min or more."
    )


def test_a_run_begun_too_early_is_drifting():
    assert check_steady(example_run("chert-early"), over_min=4, tolerance_c_per_min=0.01, until_min=4).verdict == "drifting"


def test_a_shared_warming_is_drift_of_each_vessel_and_none_of_the_difference(made):
    run = made(warming=0.1)
    verdicts = {of: check_steady(run, of=of, until_min=11, **ASKED).verdict for of in ("difference", "treated", "control")}
    assert verdicts == {"difference": "steady", "treated": "drifting", "control": "drifting"}


def test_swapping_the_vessels_turns_the_slope_and_keeps_its_range(made):
    run = made(drift=0.01)
    swapped = replace(run, readings=run.readings.rename(columns={"treated": "control", "control": "treated"}))
    one, other = (check_steady(each, until_min=11, **ASKED) for each in (run, swapped))
    assert (other.slope.value, other.slope.half_width) == pytest.approx((-one.slope.value, one.slope.half_width))
    assert one.verdict == other.verdict


def test_a_record_that_is_too_short_says_how_much_is_missing(made):
    short = check_steady(made(), until_min=6, **ASKED)
    assert (short.verdict, short.wait_min.low, short.wait_min.high) == ("cannot tell", 4, 4)
    assert str(short) == "Cannot tell: the record holds 6.0 min and you asked for 10. Watch for longer, or ask for less."


def test_too_few_readings_cannot_tell(made):
    sparse = check_steady(made(step_s=120), until_min=8, over_min=6, tolerance_c_per_min=0.02)
    assert str(sparse) == "Cannot tell: the last 6 min hold 4 readings, and 6 are needed."
    assert sparse.explain() == "There is no drift to judge: the last 6 min hold 4 readings, and 6 are needed."


def test_a_stuck_thermometer_is_not_steady(made):
    run = made()
    stuck = check_steady(replace(run, readings=run.readings.assign(control=21.2)), **ASKED)
    assert str(stuck) == "Cannot tell: the control thermometer shows one value all the time. A coarse display does that, and a stuck probe, too."


def test_a_coarse_display_cannot_be_called_steady_in_five_minutes(made):
    assert check_steady(made(display_c=0.1), over_min=5, tolerance_c_per_min=0.02, until_min=11).verdict == "cannot tell"


@pytest.mark.parametrize(
    "asked, text",
    [
        ({"over_min": 0, "tolerance_c_per_min": 0.01}, "over_min can't be 0. Give a positive number."),
        ({"over_min": 5, "tolerance_c_per_min": -1}, "tolerance_c_per_min can't be -1. Give a positive number."),
        ({"over_min": 5, "tolerance_c_per_min": float("inf")}, "tolerance_c_per_min can't be inf. Give a positive number."),
        ({**ASKED, "of": "room"}, "There is no 'room' to check. Choose 'difference', 'treated' or 'control'."),
    ],
)
def test_what_cannot_be_asked_is_refused(made, asked, text):
    with pytest.raises(Fault) as fault:
        check_steady(made(), **asked)
    assert str(fault.value) == text


def test_waiting_as_long_as_told_is_mostly_enough(made):
    """A difference that settles with the vessels, 0.3 °C to begin with: told at minute 8 how long to wait, nine in ten are steady by then."""
    told, later = [], []
    for seed in range(30):
        run = made(0, end_min=40, seed=seed)
        settling = np.exp(-run.minutes / 4)
        run = replace(run, readings=run.readings.assign(treated=run.readings["treated"] + 0.3 - 7.7 * settling, control=lambda t: t["control"] - 8 * settling))
        now = check_steady(run, over_min=5, tolerance_c_per_min=0.01, until_min=8)
        told.append(now.wait_min.high)
        until = 8 + now.wait_min.high
        looks = [check_steady(run, over_min=minutes, tolerance_c_per_min=0.01, until_min=until) for minutes in (5, 8, 5 + now.wait_min.high)]
        later.append(any(look.verdict == "steady" for look in looks))
    assert now.settling_min == pytest.approx(4, rel=0.05)
    assert np.mean(later) >= 0.8 and 4 < np.median(told) < 25


def test_a_drift_without_an_end_in_sight_has_no_wait(made):
    found = check_steady(made(drift=0.05), until_min=9, over_min=8, tolerance_c_per_min=0.01)
    assert found.wait_min is None and found.explain().endswith("Look again in a few minutes: does the drift shrink?")


def test_how_long_to_wait_is_a_range_in_words(made):
    found = check_steady(made(memory_s=20), over_min=5, tolerance_c_per_min=0.01, until_min=11)
    assert 0 < found.wait_min.low <= found.wait_min.high
    assert f"It may take {found.wait_min} more, as a longer look narrows the range." in found.explain()


def test_the_result_becomes_json_a_table_and_an_account(made):
    result = check_steady(made(memory_s=60), over_min=5, tolerance_c_per_min=0.005, until_min=11)
    kept = json.loads(json.dumps(result.to_dict()))
    assert kept["verdict"] == result.verdict and kept["slope"]["unit"] == "°C/min" and "run" in kept
    assert "minutes 6.0 to 11.0" in result._repr_html_() and "minutes 6.0 to 11.0 of the difference" in result.explain()
    assert result.explain().splitlines()[-1].startswith("It may take ")
