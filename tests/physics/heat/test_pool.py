"""The gas that lies in an open vessel: how it thins, against the diffusion equation solved by scipy."""

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from kit.physics.heat.convection import diffusivity_m2_s
from kit.physics.heat.pool import lasts_min, share_left, share_over_depth
from kit.physics.heat.vessel import Vessel

DEEP = Vessel(mouth_m=0.07)
HEIGHTS = np.linspace(0, 0.19, 39)


def diffused(start, minutes):
    """Finite volumes on 200 layers, floor closed, room air at the mouth: shares at the layers' middles."""
    layers, width = len(start), 0.19 / len(start)

    def slopes(_, share):
        edges = np.concatenate([share[:1], share, [-share[-1]]])
        return diffusivity_m2_s("CO2") * np.diff(edges, 2) / width**2

    found = solve_ivp(slopes, (0, 60 * minutes), start, "BDF", rtol=1e-6, atol=1e-8)
    return (np.arange(layers) + 0.5) * width, found.y[:, -1]


@pytest.mark.parametrize("from_below, led_in_l", [(True, 0.9), (False, 1.5)])
def test_it_lies_as_diffusion_leaves_it(from_below, led_in_l):
    """The same mean, the same picture: the diffusion equation by scipy's BDF."""
    drawn = share_over_depth(8.0, HEIGHTS, led_in_l, DEEP, from_below=from_below)
    middle = (np.arange(200) + 0.5) / 200
    filled = np.where(middle < led_in_l / 1.5, 1.0, 0.0) if from_below else np.full(200, 1 - np.exp(-led_in_l / 1.5))
    for minutes in np.arange(1, 20, 0.25):
        heights, shares = diffused(filled, minutes)
        if shares.mean() <= np.trapezoid(drawn, HEIGHTS) / 0.19:
            break
    assert drawn == pytest.approx(np.interp(HEIGHTS, heights, shares), abs=0.03)


@pytest.mark.parametrize("minutes, share", [(1, 0.64), (10, 0.35), (20, 0.18), (30, 0.10)])
def test_in_still_air_the_mean_falls_as_computed(minutes, share):
    """4 L² / (π² D) = 915 s for 19 cm with D = 0.16 cm²/s: 0.64 one minute after, then exp(-t / 915 s)."""
    assert share_left(minutes - 1, 0.64, DEEP) == pytest.approx(share, abs=0.01)


@pytest.mark.parametrize("minutes", [0, 3, 15])
def test_picture_and_mean_tell_the_same(minutes):
    drawn = share_over_depth(minutes, HEIGHTS, 1.2, DEEP)
    assert np.trapezoid(drawn, HEIGHTS) / 0.19 == pytest.approx(share_left(minutes, 0.8, DEEP), abs=0.01)


def test_it_thins_from_the_top_and_nowhere_grows():
    drawn = share_over_depth(np.linspace(0, 30, 31), HEIGHTS, 1.5, DEEP, from_below=False)
    assert (np.diff(drawn[1:], axis=1) <= 1e-9).all() and (np.diff(drawn[1:], axis=0) <= 1e-6).all() and (drawn[:, -1] < 1e-9).all()


def test_draught_and_a_shallow_vessel_shorten_its_stay():
    windy, shallow = Vessel(mouth_m=0.07, draught_m3_s=3.4e-6), Vessel(mouth_m=0.07, depth_m=0.08, volume_l=0.6)
    deep = lasts_min(0.64, 8, DEEP)
    assert deep == pytest.approx(38.8, abs=0.5)
    assert lasts_min(0.64, 8, windy) < deep / 2.5 and lasts_min(0.64, 8, shallow) < deep / 4
    assert lasts_min(0.04, 8, DEEP) == 0
