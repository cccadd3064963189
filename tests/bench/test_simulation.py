"""The simulated bench: the same switches give the same run, the noise is what was asked for, and the truth stays closed."""

import numpy as np
import pytest

from kit.bench.bundled import RECIPES
from kit.bench.model import temperatures
from kit.bench.simulation import reveal, simulate_run
from kit.faults import Fault
from kit.examples import example_class, example_run
from kit.records.run import Run, Source
from kit.records.windows import Windows


def test_the_same_switches_give_the_same_run_and_another_seed_another():
    first, again, other = (simulate_run(seed=seed) for seed in (3, 3, 4))
    assert first.source == again.source != other.source
    assert first.kind == "simulated"


def test_the_record_is_the_truth_with_the_noise_that_was_asked_for():
    """Standard deviation and correlation of an Ornstein-Uhlenbeck process: neighbours 2 s apart correlate by exp(-2/10)."""
    run = simulate_run(watch_min=300, noise_c=0.02, correlation_s=10, display_c=0, seed=8)
    noise = run.difference().to_numpy() - np.subtract(*temperatures(run.recipe, run.recipe.times_s))
    assert noise.std() == pytest.approx(0.02 * 2**0.5, rel=0.1)
    assert np.corrcoef(noise[1:], noise[:-1])[0, 1] == pytest.approx(np.exp(-0.2), abs=0.03)


def test_what_both_thermometers_share_is_not_in_the_difference():
    quiet = simulate_run(shared_c=0, noise_c=0.001, display_c=0)
    shared = simulate_run(shared_c=2, noise_c=0.001, display_c=0)
    assert shared.difference().to_numpy() == pytest.approx(quiet.difference().to_numpy(), abs=1e-9)
    assert (shared.readings["control"] - quiet.readings["control"]).std() > 0.5


def test_the_display_shows_whole_steps():
    readings = simulate_run(display_c=0.5).readings[["treated", "control"]].to_numpy()
    assert np.unique(np.round(readings % 0.5, 9)).tolist() == [0]


def test_a_gas_probe_shows_no_more_than_its_top_end_and_none_is_there_unless_asked_for():
    gas = simulate_run(gas_ceiling_ppm=10_000).readings["gas_ppm"]
    assert gas.iloc[0] == pytest.approx(420, abs=50)
    assert (gas.loc[800:] == 10_000).all()
    assert "gas_ppm" not in simulate_run().readings


def test_the_record_does_not_give_the_truth_away():
    run = simulate_run(nudge=0.123)
    assert not any(word in text for text in (repr(run), str(run), run._repr_html_()) for word in ("0.123", "recipe", "nudge"))


def test_the_truth_is_what_a_noiseless_thermometer_finds_in_the_same_windows():
    windows = Windows.of_perturbation(11)
    run = simulate_run(noise_c=0, shared_c=0, display_c=0, nudge=0.01, offset_c=0.5)
    difference = run.difference()
    baseline, response = (difference.loc[start:end].mean() for start, end in (windows.seconds[:2], windows.seconds[-2:]))
    assert reveal(run).effect_c(windows) == pytest.approx(response - baseline, abs=1e-9)


def test_the_truth_says_itself_in_a_sentence_a_table_and_plain_numbers():
    truth = reveal(simulate_run(nudge=0.01))
    assert str(truth) == "In truth the gas made the treated vessel 1.50 °C warmer after 10 min; the bench itself added 0.08 °C."
    assert "lamp touched when the gas went in" in truth._repr_html_()
    assert truth.to_dict()["recipe"]["nudge"] == 0.01


def test_a_corrected_or_bundled_run_still_knows_its_truth():
    run = simulate_run()
    assert reveal(run.with_remark("Looked at.")) == reveal(run)
    assert reveal(example_run("marble-argon")).recipe == RECIPES["marble-argon"]
    assert reveal(example_class()["Slate"]).recipe == RECIPES["slate"]


def test_nobody_knows_the_truth_of_a_measured_run():
    made = simulate_run()
    measured = Run(made.readings, "basalt", Source("basalt.csv", "0"))
    with pytest.raises(Fault) as caught:
        reveal(measured)
    assert str(caught.value) == "Nobody knows the truth behind basalt: it was measured. Only simulated and example runs have one."
