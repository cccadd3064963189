"""Glasses in warm water: what the model's least and most cases must hold, against sums and laws from outside the kit."""

from dataclasses import replace

import numpy as np
import pytest

from kit.bench import glass_course, SINGLE
from kit.bench.glasses import EXCHANGES, FILLINGS, in_water, STEPS
from kit.bench.model import parts
from kit.bench.recipe import Recipe
from kit.physics import pair_course

CASES = [*zip(EXCHANGES.ravel(), FILLINGS.ravel())]


def test_a_glassful_fills_between_a_stirred_vessel_and_one_whose_air_is_lifted_out():
    """1 - exp(-v/V), the mass balance of a stirred vessel, and v/V for plug flow. A quarter of a minute after the jug was tipped a part
    (1 - exp(-3)) / (1 - exp(-4)) of the glassful is in, and some hundredths of it have left again."""
    led_in = (1 - np.exp(-3)) / (1 - np.exp(-4))
    course = glass_course(14, 6, 38)
    for (_, from_below), share in zip(CASES, course.shares[course.minutes == 0.25][0]):
        assert share == pytest.approx(led_in if from_below else 1 - np.exp(-led_in), abs=0.04)


def test_the_gas_goes_no_slower_than_diffusion_lets_it():
    """A layer of depth L dwindles with 4 L² / (π² D): Crank, The Mathematics of Diffusion (1975), from memory; D of CO2 in air 0.16 cm²/s
    (handbooks). While the gas is heavier than the room the model adds a draught of 0.3 mL/s to it, and nothing else but what the filling blows."""
    depth_cm, mouth_cm, case = 14, 6, CASES.index((0.5, 1.0))
    course = glass_course(depth_cm, mouth_cm, 38)
    early = (course.minutes >= 1) & (course.minutes <= 8)
    rate = -np.polyfit(60 * course.minutes[early], np.log(course.shares[early, case]), 1)[0]
    diffusion = np.pi**2 * 0.16 / (4 * depth_cm**2)
    draught = 0.3 / (np.pi / 4 * mouth_cm**2 * depth_cm)
    assert rate == pytest.approx(diffusion + draught, rel=0.06)


def test_a_deeper_glass_may_be_read_longer_and_moving_air_takes_minutes():
    still = [glass_course(depth, 7, 38).gone_min for depth in (5, 9, 14, 20)]
    assert still == sorted(still) and still[-1] > 3 * still[1]
    assert glass_course(14, 7, 38, air="moving").gone_min < glass_course(14, 7, 38).gone_min / 2


def test_film_stays_and_needs_no_depth():
    cup = glass_course(5, 7, 38, film=True)
    assert cup.gone_min - cup.ready_min > 20 and glass_course(4, 7, 38).gone_min <= glass_course(4, 7, 38).ready_min


def test_warmer_water_gives_more_and_water_as_warm_as_the_room_nothing():
    sizes = [glass_course(9, 7, water).size_c for water in (21, 30, 38, 45)]
    assert sizes == sorted(sizes) and -0.4 < sizes[0][0] < 0.1  # the gas came in cool


def test_the_bundled_run_lies_between_least_and_most():
    recipe = SINGLE["kitchen-gas"]
    course = glass_course(recipe.depth_cm, recipe.mouth_cm, recipe.bath_c)
    least, most = course.size_c
    assert least < 4.9 < most and course.ready_min < 2 < 4 < course.gone_min < 10


def test_a_rim_out_of_the_water_is_a_way_to_the_room():
    """Conductances in a row and side by side, by hand, 9 cm deep and 7 cm wide, 17 K over the room: floor 38.5, wall 197.9, rim 77.0 cm²; from gas
    to wall 3.85 W/m²/K, from wall to room 7.4 (our estimates). Without a mouth the gas then settles at 12.9 K, not at 17."""
    vessel, _, setting = in_water(*parts(Recipe(dark=True, volume_l=0.3464, depth_cm=9, mouth_cm=7, bath_c=38)))
    wet, rim = 3.85 * (38.5 + 197.9 - 77.0) / 1e4, 77.0 / 1e4 / (1 / 3.85 + 1 / 7.4)
    assert vessel.gas_to_wall_w_per_k == pytest.approx(wet + rim, rel=0.001)
    assert setting.bath_k == pytest.approx(17 * wet / (wet + rim), rel=0.001) == pytest.approx(12.9, abs=0.05)


def test_its_longer_steps_change_nothing_that_is_shown(monkeypatch):
    """Against the course in the steps that the model takes of itself, which test_courses.py holds to an adaptive solver."""
    quick = glass_course(9, 7, 38)
    monkeypatch.setattr("kit.bench.glasses.STEPS", {})
    slow = glass_course(9, 7, 38)
    assert STEPS and quick.size_c == pytest.approx(slow.size_c, abs=0.03)
    assert (quick.ready_min, quick.gone_min) == (slow.ready_min, slow.gone_min)


def test_the_first_case_alone_is_the_same():
    """The cases side by side are those of one vessel at a time."""
    volume = np.pi / 4 * 49 * 9 / 1000
    recipe = Recipe(
        dark=True, volume_l=volume, depth_cm=9, mouth_cm=7, gas_l=volume, fizz_s=5, gas_at_min=3, bath_c=38, gas_colder_k=3, draught_ml_s=0.3, exchange=0.5
    )
    vessel, contents, setting = in_water(*parts(recipe))
    alone = pair_course(replace(vessel, probe_lag_s=40), contents, setting, 60 * 10).at(np.array([60.0 * 7]))[0]
    together = glass_course(9, 7, 38)
    assert alone[0] - alone[1] == pytest.approx(together.effects_c[together.minutes == 4][0, CASES.index((0.5, 0.0))], abs=0.05)
