"""Several runs weighed together: the bundled bench tells its story, and contradictions don't pass in silence."""

from functools import cache

import pytest

from kit import Estimate, Fault, Windows, example_run, paired_effect, possible_causes, reveal, weigh_causes

WINDOWS = Windows.of_perturbation(11)
BUNDLED = {
    "gas": "basalt", "air": "flint-air", "argon": "marble-argon", "covered": "basalt-covered", "shaded": "pumice-shaded",
    "covered_shaded": "basalt-covered-shaded", "dark": "pumice-dark",
}  # fmt: skip


@cache
def effect(kind):
    return paired_effect(example_run(BUNDLED[kind]), WINDOWS)


@cache
def weighed(*kinds):
    return weigh_causes({kind: effect(kind) for kind in kinds})


def near(value, error=0.04):
    return Estimate.from_error(value, error, 1.96)


def test_gas_air_and_argon_can_not_tell():
    found = weighed("gas", "air", "argon")
    assert found.verdict == "cannot tell" and found.cause("m").word == "open" and found.cause("m").least == pytest.approx(0, abs=1e-9)
    assert str(found) == f"Cannot tell yet which cause is needed for the {effect('gas').warming.text} of the gas run."
    assert found.next_runs[0][0] == "covered" and found.reason.endswith("The run that would narrow it most: film over both mouths once the gas is in.")


def test_film_shows_that_the_mouth_is_needed():
    found = weighed("gas", "air", "argon", "covered", "shaded", "covered_shaded")
    assert found.verdict == "needed" and found.cause("m").word == "needed" and found.cause("m").least > 0.2
    assert found.cause("d").word == "excluded as the only cause"
    assert str(found).startswith(f"Needed for the {effect('gas').warming.text} of the gas run: less exchange through the mouth (m, 0.")


def test_the_bounds_hold_the_bench_s_own_truth():
    found, truth = weighed("gas", "air", "argon", "covered", "shaded", "covered_shaded"), reveal(example_run("basalt"))
    for cause in found.causes:
        assert cause.least - 0.02 <= truth.cause(cause.letter).alone_c <= cause.most + 0.02


def test_one_run_agrees_with_the_budget_of_causes():
    budget, found = possible_causes(effect("gas")), weighed("gas")
    alone = {cause.letter for cause in found.causes if cause.word != "excluded as the only cause"}
    assert set(budget.could_alone) == alone


def test_every_step_is_kept_and_none_widens_a_bound():
    found = weighed("gas", "air", "covered")
    assert [kind for kind, _ in found.history] == ["gas", "air", "covered"]
    for (_, before), (_, after) in zip(found.history, found.history[1:]):
        assert all(after[letter][0] >= before[letter][0] - 1e-6 and after[letter][1] <= before[letter][1] + 1e-6 for letter in after)


def test_runs_bring_their_share_of_gas_and_their_control_s_warming():
    gas, argon = weighed("gas", "argon").runs
    assert gas.share == pytest.approx(0.32, abs=0.02) and argon.share is None
    assert gas.quotient == pytest.approx(effect("gas").warming.value / gas.control_warmed_c) and 0.1 < gas.quotient < 0.3
    assert "32 % of gas left at reading" in weighed("gas", "argon").explain()


def test_a_probe_at_its_top_end_tells_no_share():
    run = example_run("dolomite")
    assert weigh_causes({"gas": paired_effect(run, WINDOWS)}).runs[0].share is None


def test_runs_that_contradict_each_other_are_named_and_one_is_to_be_repeated():
    found = weigh_causes({"gas": near(1.5), "shaded": near(1.5), "swapped": near(5.0)})
    assert found.verdict == "contradict" and found.contradiction == ("gas", "swapped")
    assert str(found) == "The runs contradict each other: 'gas' and 'swapped'."
    assert found.reason == "No sizes of the causes give both. Repeat one of them, the one you trust less, before you weigh them."
    assert {cause.word for cause in found.causes} == {"open"} and found.next_runs == ()


def test_a_known_bench_narrows_the_bounds():
    known = weigh_causes({"gas": near(1.5), "covered": near(0.3)}, vessel={"mouth_cm": 6.5, "card_w": 0.1, "probe_k": (0.5, 1.5)})
    anyone = weigh_causes({"gas": near(1.5), "covered": near(0.3)})
    assert known.cause("m").least > anyone.cause("m").least and known.vessel.mouth_cm == (6.5, 6.5)


def test_shares_may_be_told():
    found = weigh_causes({"gas": near(1.5), "covered": near(0.3)}, shares={"gas": 0.3, "covered": 0.6})
    assert [run.share for run in found.runs] == [0.3, 0.6]


@pytest.mark.parametrize(
    "effects, message",
    [
        ({"argon": near(1)}, "The gas run is missing: it is what the causes are to explain. Add it as weigh_causes({'gas': effect, ...})."),
        ({"gas": near(1), "helium": near(1)}, "There is no kind of run 'helium'. Kinds: gas, air, argon, stirred, shaded, covered, "
         "covered_shaded, filtered, swapped, waited, dark."),
        ({"gas": Estimate.undetermined()}, "The gas run has no effect with a range. Measure it again, or leave it out."),
    ],
)  # fmt: skip
def test_what_can_not_be_weighed_is_refused(effects, message):
    with pytest.raises(Fault) as caught:
        weigh_causes(effects)
    assert str(caught.value) == message
