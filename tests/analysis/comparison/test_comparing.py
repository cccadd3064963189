"""Two results beside each other: the verdicts, what drift does to them, refusals.

The two one-sided tests stand in tests/statistics/test_equivalence.py.
"""

import json
from dataclasses import replace

import pytest

from kit import Estimate, Fault, Windows, class_effect, compare, fit_warming, paired_effect
from kit.analysis.comparison.overlaid import overlay
from kit.estimate import Parts, rounded
from kit.statistics import ranged

WINDOWS = Windows.of_perturbation(11)


def stated(value, error=0.02):
    """A number whose range is chance alone, and says so."""
    return ranged(value, Parts(error))


@pytest.mark.parametrize(
    "mine, margin, sentence, reason",
    [
        (
            stated(1.52),
            0.3,
            "Same within the margin of 0.3 °C: mine minus the reference is 0.02 °C (95 %: −0.04 to 0.08 °C).",
            "The whole tested range, −0.027 to 0.067 °C, lies within 0.3 °C of zero.",
        ),
        (
            stated(1.6),
            0.3,
            "Same within the margin of 0.3 °C: mine minus the reference is 0.10 °C (95 %: 0.04 to 0.16 °C).",
            "The whole tested range, 0.053 to 0.147 °C, lies within 0.3 °C of zero. "
            "There is a difference, but a smaller one than matters here.",
        ),
        (
            stated(2.0),
            0.3,
            "Different: mine minus the reference is 0.50 °C (95 %: 0.44 to 0.56 °C).",
            "The whole tested range, 0.453 to 0.547 °C, lies further than 0.3 °C from zero.",
        ),
        (
            stated(1.6),
            0.12,
            "Cannot tell: mine minus the reference is 0.10 °C (95 %: 0.04 to 0.16 °C).",
            "The tested range, 0.053 to 0.147 °C, lies partly within and partly beyond the margin of 0.12 °C. "
            "These two could settle 0.147 °C. There is a difference; whether it is larger than the margin stays open.",
        ),
    ],
    ids=["same", "same, yet not zero", "different", "cannot tell"],
)
def test_verdict_and_reason(mine, margin, sentence, reason):
    found = compare(mine, stated(1.5), margin=margin)
    assert (str(found), found.reason) == (sentence, reason)


def test_the_margin_that_it_could_settle_is_the_smallest_that_gives_same():
    open_ = compare(stated(1.6), stated(1.5), margin=0.12)
    assert compare(stated(1.6), stated(1.5), margin=open_.settles_c + 1e-6).verdict == "same within the margin"
    assert compare(stated(1.6), stated(1.5), margin=open_.settles_c - 1e-6).verdict == "cannot tell"


def test_changing_sides_changes_the_sign_alone(made):
    one, other = (paired_effect(made(seed=seed), WINDOWS) for seed in (1, 2))
    there, back = compare(one, other, margin=0.3), compare(other, one, margin=0.3)
    assert there.difference.value == -back.difference.value and there.verdict == back.verdict
    assert there.difference.half_width == pytest.approx(back.difference.half_width)


def test_drift_in_both_is_added_up_at_its_worst(made):
    one, other = (paired_effect(made(seed=seed), Windows((10, 11), (11, 12), (20, 21))) for seed in (1, 2))
    found = compare(one, other, margin=0.3)
    drifts = [(each.drift.low * each.drift.minutes, each.drift.high * each.drift.minutes) for each in (one, other)]
    parts = found.difference.parts
    assert (parts.drift_low, parts.drift_high) == pytest.approx((drifts[0][0] - drifts[1][1], drifts[0][1] - drifts[1][0]))
    assert found.tested.high - found.tested.low > parts.drift_high - parts.drift_low
    assert f"drift may have added {rounded(parts.drift_low, 2)} to {rounded(parts.drift_high, 2)} °C" in found.explain()


def test_an_effects_own_number_is_compared_as_the_effect_is(made):
    """An Estimate carries what its range is made of: taken out of its effect, it loses no allowance."""
    one, other = (paired_effect(made(seed=seed), WINDOWS) for seed in (1, 2))
    whole, alone = compare(one, other, margin=0.3), compare(one.warming, other.warming, margin=0.3)
    assert (alone.difference, alone.test, alone.cautions) == (whole.difference, whole.test, whole.cautions)


def test_a_bare_number_may_have_drifted_by_the_tolerance_for_ten_minutes():
    bare = Estimate.from_error(1.5, 0.02, 1.96)
    found = compare(stated(1.5), bare, margin=0.3)
    assert (found.difference.parts.drift_low, found.difference.parts.drift_high) == (-0.1, 0.1) and found.bare == ("the reference",)
    assert str(found.cautions[-1]) == (
        "What the range of the reference is made of is not said. So it is taken for chance alone, and a drift of the tolerance over 10 min is "
        "allowed for on top. Give the effect itself, if you have it."
    )


def test_what_would_do_is_said_for_what_stands_in_the_way():
    """A quarter of the margin is advice against chance; where drift fills the margin, no quieter readings help, and none are asked for."""
    chance, drift = compare(stated(1.5), stated(1.45), margin=0.2), compare(stated(1.5), Estimate.from_error(1.45, 0.02, 1.96), margin=0.08)
    assert chance.explain().endswith("the standard uncertainty of the difference should be at most 0.050 °C.")
    assert drift.explain().endswith("no two runs alike could be called the same within 0.08 °C. Measure the drift first.")


def test_two_curves_are_compared_by_their_rises(made):
    windows = Windows((9, 11), (11, 12), (20.5, 21.4))
    one, other = (fit_warming(made(rise, seed=rise), windows) for rise in (1, 2))
    found = compare(one, other, margin=0.3)
    assert found.verdict == "different" and found.difference.value == pytest.approx(one.rise.value - other.rise.value)


def test_a_class_beside_its_reference():
    mean = class_effect({name: stated(value) for name, value in (("a", 1.4), ("b", 1.5), ("c", 1.55), ("d", 1.6))})
    assert compare(mean, stated(1.5), margin=0.4).verdict == "same within the margin"
    assert compare(stated(2.5), mean, margin=0.3).verdict == "different"


def test_a_result_without_a_range_cannot_be_compared(made):
    curve = fit_warming(replace(made(), readings=made().readings.assign(control=21.0)), WINDOWS)
    found = compare(curve, stated(1.5), margin=0.3)
    assert (found.verdict, found.settles_c) == ("cannot tell", float("inf"))
    assert str(found) == f"Cannot tell whether the two are the same. Your warming has no value with a range. {curve.reason}"


@pytest.mark.parametrize("margin", [0, -0.3, float("nan"), float("inf"), None, "wide"])
def test_a_margin_that_is_none_is_refused(margin):
    with pytest.raises(Fault) as fault:
        compare(stated(1.5), stated(1.4), margin=margin)
    assert (
        str(fault.value) == f"The margin is the largest difference you would still call the same, in °C: 0.3, say. It was given {margin!r}."
    )


def test_a_result_beside_itself_is_refused():
    with pytest.raises(Fault) as fault:
        compare(one := stated(1.5), one, margin=0.3)
    assert str(fault.value) == "Both sides are the same result. Compare your run with another one, the reference run, say."


def test_a_curve_and_an_effect_answer_with_the_same_kind_of_number(made):
    one, other = made(seed=1), made(seed=2)
    curve, effect = (compare(method(one, WINDOWS), paired_effect(other, WINDOWS), margin=0.3) for method in (fit_warming, paired_effect))
    assert curve.difference == effect.difference


def test_something_else_is_refused():
    with pytest.raises(Fault) as fault:
        compare(1.5, stated(1.4), margin=0.3)
    assert str(fault.value) == "float holds no warming with a range. Give effects, warming curves, a class effect or Estimates."


def test_the_overlay_sets_both_changes_to_minute_zero(made):
    early, late = made(seed=1), made(seed=2)
    moved = Windows((9, 11), (11, 12), (20, 21))
    laid = overlay(paired_effect(early, moved), paired_effect(late, moved))
    assert laid.index[0] == pytest.approx(-2, abs=0.1) and laid.index[-1] == pytest.approx(10, abs=0.1)
    assert laid["mine"][laid.index < 0].mean() == pytest.approx(0, abs=0.01)
    assert laid["gap"].abs().max() < 0.1
    assert overlay(stated(1), paired_effect(early, moved)) is None


def test_it_is_kept_as_json_and_shown_as_a_table():
    found = compare(stated(1.52), stated(1.5), margin=0.3)
    assert json.loads(json.dumps(found.to_dict()))["verdict"] == found.verdict
    assert found.reason in found._repr_html_()
