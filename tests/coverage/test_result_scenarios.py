"""A small part of the coverage study of curves, classes, comparisons and plans, with bounds that can fail.

The whole is `python -m kit check --coverage`.
"""

import pytest

from kit.coverage.classes import CLASSES_OF_RUNS, ClassOfRuns, class_row, margin_row, plan_row, runs_row
from kit.coverage.curves import RISES, Rise, curve_row
from kit.statistics.rehearsal import Wander

# Three Monte-Carlo standard errors at 95 %: 200 curves, 400 classes, 150 classes of runs.
CURVES, ROOM_CURVES, CLASSES, ROOM_CLASSES, RUN_CLASSES, ROOM_RUNS = 60, 8.5, 400, 3.3, 120, 6.0


def figures(row):
    return {figure.name: figure.value for figure in row.figures}


@pytest.mark.parametrize("kind", [each for each in RISES[:21] if each.lasts in (5, 1.5)] + [RISES[-3], RISES[-4]], ids=str)
def test_the_ranges_of_a_curve_hold_and_are_not_bought_by_width(kind):
    found = figures(curve_row(kind, CURVES))
    assert min(found["rise covers %"], found["τ covers %"]) >= 93.5 - ROOM_CURVES
    assert found["half-width °C"] <= 1.25 * kind.half_width


def test_a_record_of_half_a_time_constant_seldom_determines_its_curve():
    found = figures(curve_row(Rise(15, 0.5), 40))
    assert found["determined %"] <= 5 and found["rise covers %"] >= 93.5 - ROOM_CURVES


@pytest.mark.parametrize("groups", [4, 6, 12])
@pytest.mark.parametrize("spread", [0.0, 0.05, 0.3])
def test_class_mean_and_next_group_hold(groups, spread):
    found = figures(class_row(groups, spread, CLASSES))
    assert min(found["mean covers %"], found["next covers %"], found["spread covers %"]) >= 93.5 - ROOM_CLASSES
    assert found["to Knapp-Hartung"] <= 1.1


@pytest.mark.parametrize("kind", CLASSES_OF_RUNS[1:4], ids=str)
def test_a_class_mean_holds_a_drift_that_all_share(kind):
    assert figures(runs_row(kind, RUN_CLASSES))["mean covers %"] >= 93.5 - ROOM_RUNS


def test_the_study_sees_a_drift_beyond_the_tolerance():
    assert figures(runs_row(ClassOfRuns(6, 0.0, 0.03), RUN_CLASSES))["mean covers %"] < 50


@pytest.mark.parametrize("errors", [(0.02, 0.02, 0.0), (0.05, 0.02, 0.0), (0.02, 0.02, 0.1)])
def test_a_false_same_at_the_margin_is_rare(errors):
    found = figures(margin_row(*errors, 4000))
    assert found["false same %"] <= 5 + 1.1 and found["false different %"] <= 5 + 1.1


@pytest.mark.parametrize("runs", [1, 6])
def test_a_plan_foretells_the_range_that_is_found(runs):
    assert figures(plan_row(Wander(correlation_s=10.0), runs, 60))["found/foretold"] == pytest.approx(1, abs=0.15)
