"""The bench's model: each cause alone, against a formula or a library; all together, as the rival causes of such a run are told apart."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from kit.bench.model import CAUSES, GAS_CAUSES, GAS_TO_WALL_W_PER_K, filled_j_per_k, gas_share, heat_carried, settled, temperatures
from kit.bench.recipe import Recipe
from kit.bench.truth import truth_of
from tests.coolprop import PropsSI

USUAL = Recipe(nudge=0.004)
TOLD = {
    "usual": {},
    "air": {"gas": "air"},
    "argon": {"gas": "argon"},
    "stirred": {"stirred": True},
    "shaded": {"shaded": True},
    "filtered": {"filtered": True},
    "swapped": {"swapped": True},
}


@cache
def made(name):
    """What each cause makes of the run of this name, in °C."""
    return dict(truth_of(replace(USUAL, **TOLD[name])).causes)


def gas_alone(name):
    return sum(made(name)[cause] for cause in GAS_CAUSES)


@pytest.mark.parametrize("gas, name", [("CO2", "CO2"), ("argon", "Argon"), ("air", "Air")])
def test_a_full_vessel_holds_and_conducts_heat_as_coolprop_says(gas, name):
    """CoolProp 8.0.0, the reference equations of state; 2 % for conductivity, as the kit's correlations promise."""
    density, capacity, conductivity = (PropsSI(what, "T", 300.15, "P", 101325, name) for what in ("D", "C", "L"))
    air = PropsSI("L", "T", 300, "P", 101325, "Air")
    assert filled_j_per_k(gas) == pytest.approx(1.5e-3 * density * capacity, rel=0.01)
    assert heat_carried(gas, stirred=False) == pytest.approx(conductivity / air, rel=0.02)


def test_a_still_layer_alone_gains_what_its_formula_says():
    """Gain = excess over the wall x (1 / ratio - 1); excess = watts inside / conductance."""
    plain = replace(USUAL, gas="argon", probe_k=0, share=1.0)
    excess, ratio = plain.tile_w / GAS_TO_WALL_W_PER_K, heat_carried("argon", stirred=False)
    assert settled(plain, 1) - settled(plain, 0) == pytest.approx(excess * (1 / ratio - 1), rel=1e-9)


def test_without_causes_both_vessels_do_the_same():
    treated, control = temperatures(replace(USUAL, offset_c=0.3), np.linspace(0, 1290, 100), causes=())
    assert treated - control == pytest.approx(0.3, abs=1e-12)


def test_the_parts_add_up_to_the_whole():
    recipe = replace(USUAL, unequal=0.01, drift_c_per_min=0.02, offset_c=0.4)
    before, after = np.subtract(*temperatures(recipe, np.array([660.0, 1260.0]), CAUSES))
    truth = truth_of(recipe)
    assert sum(value for _, value in truth.causes) == pytest.approx(after - before, abs=1e-12)
    assert truth.warming_c + truth.bench_c == pytest.approx(after - before, abs=1e-12)


def test_the_usual_run_has_the_usual_size():
    """About 1.5 °C more after 10 min: common practice, no source."""
    assert gas_alone("usual") == pytest.approx(1.5, abs=0.3)


def test_in_an_air_run_nothing_comes_from_the_gas():
    assert gas_alone("air") == 0
    assert made("air")["nudge"] != 0


def test_argon_warms_without_taking_up_any_infrared():
    assert made("argon")["lamp light"] == made("argon")["wall infrared"] == 0
    assert gas_alone("argon") > 0.8 * gas_alone("usual")


def test_stirring_takes_nearly_all_of_it_away():
    assert abs(gas_alone("stirred")) < 0.15 * gas_alone("usual")


def test_foil_takes_away_the_thermometer_in_the_beam_and_leaves_the_layer():
    assert made("shaded")["probe"] == 0
    assert made("shaded")["layer"] == pytest.approx(made("usual")["layer"], rel=0.01)


def test_a_filter_takes_the_gas_s_own_share_of_the_lamp_and_weakens_the_rest():
    assert made("filtered")["lamp light"] == 0
    assert made("filtered")["layer"] == pytest.approx(0.55 * made("usual")["layer"], rel=0.05)


def test_changed_places_turn_the_lamp_s_nudge_round():
    assert made("swapped")["nudge"] == pytest.approx(-made("usual")["nudge"], rel=0.05)
    assert gas_alone("swapped") == pytest.approx(gas_alone("usual"), rel=0.01)


def test_thermal_infrared_between_gas_and_wall_cools_a_gas_warmer_than_its_wall():
    assert -0.4 < made("usual")["wall infrared"] < 0


def test_the_gas_comes_within_a_minute_and_leaves_in_hours():
    share = gas_share(USUAL, np.array([0, 660, 690, 720, 720 + 3 * 3600]))
    assert share == pytest.approx([0, 0, 0.485, 0.97, 0.97 / np.e])
