"""A small part of the coverage study of curves, classes, comparisons and plans, with bounds that can fail.

The whole is `python -m kit check --coverage`.
"""

import pytest

from kit.coverage.classes import CLASSES_OF_RUNS, ClassOfRuns, class_row, runs_row, thermometers_row
from kit.coverage.comparisons import margin_row, pairs_row, plan_row
from kit.coverage.curves import RISES, Rise, curve_row
from kit.coverage.finding import FINDINGS, HEALTHY, STUCK, finding_row, stuck_row
from kit.statistics.rehearsal import Wander

# Three Monte-Carlo standard errors at 95 %: 200 curves, 400 classes, 150 classes of runs.
CURVES, ROOM_CURVES, CLASSES, ROOM_CLASSES, RUN_CLASSES, ROOM_RUNS = 60, 8.5, 400, 3.3, 120, 6.0


def figures(row):
    return {figure.name: figure.value for figure in row.figures}


CURVES_CHECKED = [Rise(speeds=(100,)), Rise(), Rise(earlier_min=0.0), Rise(fill_s=90), Rise(step_s=60.0, display_c=0.1), Rise(drift=0.01)]


@pytest.mark.parametrize("kind", CURVES_CHECKED, ids=str)
def test_the_rise_and_the_time_of_a_curve_hold_whatever_its_form(kind):
    found = figures(curve_row(kind, CURVES))
    assert found["rise covers %"] >= 93.5 - ROOM_CURVES and not found["time covers %"] < 93.5 - ROOM_CURVES
    assert found["determined %"] >= 90 or kind.step_s == 60


def test_where_nothing_rises_nothing_is_determined_or_still_rising():
    found = figures(curve_row(Rise(speeds=(), drift=0.01), CURVES))
    assert found["determined %"] <= 5 and found["told from none %"] <= 10 and found["still rising %"] <= 10


def test_a_change_marked_a_minute_late_is_not_determined():
    assert figures(curve_row(Rise(late_s=60.0), 20))["determined %"] <= 10


@pytest.mark.parametrize("groups", [4, 6, 12])
@pytest.mark.parametrize("spread", [0.0, 0.05, 0.3])
def test_class_mean_and_next_group_hold(groups, spread):
    found = figures(class_row(groups, spread, CLASSES))
    assert min(found["mean covers %"], found["next covers %"], found["spread covers %"]) >= 93.5 - ROOM_CLASSES
    assert found["to Knapp-Hartung"] <= 1.1


@pytest.mark.parametrize("kind", CLASSES_OF_RUNS[1:5], ids=str)
def test_a_class_mean_holds_a_drift_that_all_share(kind):
    assert figures(runs_row(kind, RUN_CLASSES))["mean covers %"] >= 93.5 - ROOM_RUNS


def test_the_study_sees_a_drift_beyond_the_tolerance():
    assert figures(runs_row(ClassOfRuns(6, 0.0, 0.03), RUN_CLASSES))["mean covers %"] < 50


@pytest.mark.parametrize("errors", [(0.02, 0.02, 0.0), (0.05, 0.02, 0.0), (0.02, 0.02, 0.1)])
def test_a_false_same_at_the_margin_is_rare(errors):
    found = figures(margin_row(*errors, 4000))
    assert found["false same %"] <= 5 + 1.1 and found["false different %"] <= 5 + 1.1


@pytest.mark.parametrize("runs, swapped", [(1, False), (4, True), (6, False)])
def test_a_plan_keeps_its_promise_in_about_four_of_five(runs, swapped):
    found = figures(plan_row(Wander(correlation_s=10.0), runs, swapped, 60))
    assert found["kept %"] >= 65 and found["covers %"] >= 93.5 - ROOM_CURVES
    assert found["told %"] == pytest.approx(found["predicted told %"], abs=15)


SWAPPED = ClassOfRuns(8, 0.05, 0.01, 4, 0.2, earlier_min=9)


def test_a_half_swapped_class_is_narrower_than_one_that_did_not_swap_and_holds_its_mean():
    swapped, usual = (figures(runs_row(kind, 60)) for kind in (SWAPPED, ClassOfRuns(8, 0.05, 0.01, earlier_min=9)))
    assert swapped["mean covers %"] >= 93.5 - ROOM_CURVES and swapped["half-width °C"] < 0.6 * usual["half-width °C"]


def test_shared_thermometers_hold_when_told_and_fail_when_not():
    found = figures(thermometers_row("half on one pair", 12, 150))
    assert found["told: covers %"] >= 93.5 - ROOM_RUNS and found["not told: covers %"] < 90


@pytest.mark.parametrize("earlier_min", [0, 9])
def test_two_drifting_runs_are_seldom_called_same_or_different_falsely(earlier_min):
    found = figures(pairs_row(0.01, earlier_min, 0.15, 60))
    assert found["false same %"] <= 5.5 and found["false different %"] <= 5.5 and found["different at 0.5 °C %"] >= 50


@pytest.mark.parametrize("kind", FINDINGS[::3], ids=lambda kind: kind.scenario.name)
def test_windows_are_suggested_where_the_change_is(kind):
    assert figures(finding_row(kind, 12))["right %"] >= kind.right - 25


@pytest.mark.parametrize("kind", HEALTHY[::4], ids=lambda kind: kind.name)
def test_a_healthy_thermometer_is_not_called_stuck(kind):
    assert figures(stuck_row(kind, 20))["called stuck %"] == 0


def test_one_that_stands_still_is_found_where_noise_shows_it():
    assert figures(stuck_row(STUCK[0], 20, True))["called stuck %"] >= 95
