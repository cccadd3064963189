"""The bench's model: runs of one bench that differ in one thing, told apart as the rival causes are; and what must hold of any bench."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from kit.bench.model import GAS_LETTERS, effects_at, gas_share, holds_until_min, inside_m2, temperatures, vessel_of
from kit.bench.recipe import Recipe
from kit.bench.truth import truth_of

USUAL = Recipe(nudge=0.004)
TOLD = {
    "usual": {},
    "air": {"gas": "air"},
    "argon": {"gas": "argon"},
    "stirred": {"stirred": True},
    "shaded": {"shaded": True},
    "filtered": {"filtered": True},
    "swapped": {"swapped": True},
    "covered": {"covered": True},
    "covered and shaded": {"covered": True, "shaded": True},
    "dark": {"dark": True},
    "film alone": {"gas": "air", "covered": "treated"},
}


@cache
def truth(name):
    return truth_of(replace(USUAL, **TOLD[name]))


def alone(name, letter):
    return truth(name).cause(letter).alone_c


def test_the_usual_run_has_the_usual_size_most_of_it_by_the_mouth():
    """About 1.5 °C more after 10 min: common practice, no source."""
    assert truth("usual").warming_c == pytest.approx(1.5, abs=0.3)
    assert alone("usual", "m") > 0.8 * truth("usual").warming_c and 0 < alone("usual", "d") < 0.2


@pytest.mark.parametrize("mouth_cm, more_k", [(6, 1.2), (8, 2.0), (10, 2.8)])
def test_the_mouth_alone_makes_what_was_estimated_for_its_width(mouth_cm, more_k):
    """Integration of the same balance with other code: P_g 0.1, P_w 4 W, U_gw 0.26, U_we 0.5 W/K, C_w 120 J/K; 1.2, 2.0, 2.8 K."""
    assert truth_of(Recipe(mouth_cm=mouth_cm)).cause("m").alone_c == pytest.approx(more_k, abs=0.15)


def test_without_causes_both_vessels_do_the_same():
    recipe = replace(USUAL, nudge=0, offset_c=0.3)
    assert effects_at(recipe, np.linspace(0, 1290, 100), [""]) == pytest.approx(0, abs=1e-12)


def test_what_the_causes_make_alone_is_nearly_all_of_it():
    for name in ("usual", "argon", "covered", "dark"):
        gas = [each.alone_c for each in truth(name).causes if each.letter in GAS_LETTERS]
        assert sum(gas) == pytest.approx(truth(name).warming_c, abs=0.15)


def test_warming_and_bench_add_up_to_what_is_seen():
    recipe = replace(USUAL, unequal=0.01, drift_c_per_min=0.02, offset_c=0.4)
    before, after = np.subtract(*temperatures(recipe, np.array([660.0, 1260.0])))
    found = truth_of(recipe)
    assert found.warming_c + found.bench_c == pytest.approx(after - before, abs=0.003)


def test_in_an_air_run_nothing_comes_from_the_gas():
    assert truth("air").warming_c == pytest.approx(0, abs=1e-12)
    assert alone("air", "f") == pytest.approx(0.03, abs=0.01) and holds_until_min(replace(USUAL, gas="air")) == 0


def test_argon_warms_about_as_much_without_taking_up_any_infrared():
    assert alone("argon", "a") == alone("argon", "b") == 0
    assert truth("argon").warming_c == pytest.approx(truth("usual").warming_c, abs=0.2)


def test_film_over_both_takes_the_mouth_s_part_away_and_lets_the_rest_grow():
    assert alone("covered", "m") < 0.02 * alone("usual", "m") + 0.01
    assert alone("covered", "d") > 1.5 * alone("usual", "d") and alone("covered", "a") > alone("usual", "a")


def test_foil_takes_away_the_thermometer_in_the_beam_alone():
    assert alone("shaded", "d") == alone("covered and shaded", "d") == 0
    assert alone("shaded", "m") == pytest.approx(alone("usual", "m"), rel=1e-6)


def test_stirring_blows_the_gas_out_and_leaves_nothing():
    assert abs(truth("stirred").warming_c) < 0.05
    assert gas_share(replace(USUAL, stirred=True), np.array([1260.0])) < 0.01


def test_half_the_beam_makes_less_than_half_of_the_mouth_s_part():
    """The quotient effect / control's own warming falls to about 0.74 with no absorption at all, as exchange grows faster than
    temperature (computed with other code)."""
    assert alone("filtered", "a") == 0
    control = [temperatures(replace(USUAL, **TOLD[name]), np.array([1260.0]))[1][0] for name in ("usual", "filtered")]
    warmed = control[0] - 21 - 1.3, control[1] - 21 - 0.65  # less room and the lit thermometer's own excess
    assert alone("filtered", "m") / warmed[1] / (alone("usual", "m") / warmed[0]) == pytest.approx(0.74, abs=0.05)


def test_changed_places_turn_the_lamp_s_nudge_round_and_nothing_else():
    assert alone("swapped", "f") == pytest.approx(-alone("usual", "f"), rel=0.02)
    assert truth("swapped").warming_c == pytest.approx(truth("usual").warming_c, abs=1e-9)


def test_swapped_vessels_mirror_each_other():
    """With air in both, the run seen from the other side is the same run."""
    one, other = (temperatures(replace(USUAL, gas="air", nudge=0.1, swapped=side), np.linspace(0, 1290, 50)) for side in (False, True))
    assert one[0] == pytest.approx(other[1], abs=1e-12) and one[1] == pytest.approx(other[0], abs=1e-12)


def test_without_a_lamp_the_mouth_still_works():
    """About 2.5 °C for the canister in water 15 °C above the room, 1.4 to 4.2 at half and twice the exchange; 0.1 without the mouth
    (other code; the water here cools meanwhile)."""
    dark = replace(USUAL, mouth_cm=7, dark=True, bath_c=36)
    assert truth_of(dark).warming_c == pytest.approx(2.3, abs=0.4)
    ends = [truth_of(replace(dark, exchange=part)).warming_c for part in (0.5, 2.0)]
    assert ends == pytest.approx([1.3, 3.9], abs=0.5)
    assert alone("dark", "a") == alone("dark", "d") == 0


def test_film_over_one_glass_warms_it_like_a_gas():
    assert truth("film alone").warming_c == pytest.approx(0, abs=1e-12) and alone("film alone", "k") > 1


@pytest.mark.parametrize("minute, share", [(12, 0.55), (21, 0.32), (31, 0.16), (56, 0.0)])
def test_the_gas_comes_within_two_minutes_and_leaves_as_from_an_open_vessel(minute, share):
    """1.5 L into 1.5 L, mixing, is 0.63; then 4 L² / (π² D) = 915 s by diffusion and a little more by the card's plume."""
    recipe = replace(USUAL, watch_min=45.5)
    assert gas_share(recipe, np.array([60.0 * minute]))[0] == pytest.approx(share, abs=0.03)


def test_the_effect_ends_with_the_gas():
    recipe = replace(USUAL, nudge=0, watch_min=45.5)
    held = holds_until_min(recipe)
    assert 25 < held < 40
    treated, control = temperatures(recipe, 60 * np.array([21.0, 11 + held + 10]))
    assert treated[0] - control[0] > 1.3 and abs(treated[1] - control[1]) < 0.1


def test_a_shallow_vessel_and_a_draught_end_it_sooner():
    usual = holds_until_min(replace(USUAL, watch_min=60))
    for change in ({"volume_l": 0.35, "depth_cm": 9.0}, {"draught_ml_s": 5.0}, {"card_w": 0.5}):
        assert holds_until_min(replace(USUAL, watch_min=60, **change)) < 0.7 * usual


def test_the_inside_of_a_canister():
    """1.5 L, 19 cm deep: 10 cm wide, by hand; and the worked vessel's 2 J/K, 120 J/K, 0.26 and 0.5 W/K."""
    assert inside_m2(1.5, 0.19) == pytest.approx(np.pi * 0.10026 * 0.19 + np.pi * 0.05013**2, rel=1e-3)
    vessel = vessel_of(Recipe())
    assert (vessel.gas_j_per_k, vessel.wall_j_per_k) == pytest.approx((2.0, 120), rel=0.02)
    assert (vessel.gas_to_wall_w_per_k, vessel.wall_to_room_w_per_k) == pytest.approx((0.26, 0.5), rel=0.01)
