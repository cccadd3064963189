"""A planet's energy balance, the forcing by CO2 and the warming that follows, as the assessments give it: always a range."""

from functools import cache

import numpy as np
from scipy.special import ndtri

from kit.physics.checking import bounded
from kit.physics.constants import STEFAN_BOLTZMANN

SUN_W_M2 = 1361.0  # Kopp & Lean, Geophys. Res. Lett. 38:L01706, 2011 (from memory)
ALBEDO = 0.30  # share of sunlight that Earth sends back, rounded (textbook, from memory)
SURFACE_K = 288.0  # observed mean of Earth's surface, rounded (textbook, from memory)
PREINDUSTRIAL_PPM = 278.0  # CO2 in 1750, rounded (IPCC AR6 WG1, chapter 2, from memory)
MYHRE_W_M2 = 5.35  # Myhre et al., Geophys. Res. Lett. 25:2715, 1998 (from memory); about ± 10 % (from memory)
FITTED_PPM = (150, 1_000)  # what that formula is for: past and near-future CO2; AR6 has a longer one (from memory)
DOUBLING_W_M2 = (3.46, 3.93, 4.40)  # 3.93 ± 0.47, very likely: IPCC AR6 WG1, chapter 7, executive summary
# Warming (K) by CO2 doubled: where 5, 17, 50, 83 and 95 % of the assessed belief lie below. "Very likely" is read as the middle
# 90 %, "likely" as the middle 66 %. In the end: IPCC AR6 WG1, section TS.3.2.1. At the time of a slow doubling: chapter 7 (from memory).
LEVELS = (0.05, 0.17, 0.50, 0.83, 0.95)
EQUILIBRIUM_K = (2.0, 2.5, 3.0, 4.0, 5.0)
TRANSIENT_K = (1.2, 1.4, 1.8, 2.2, 2.4)
FITTED = "The formula was fitted to the CO2 of the past and the near future."
SEED = 1959  # of the draws below: any fixed number would do


def absorbed_w_m2(sun_w_m2=SUN_W_M2, albedo=ALBEDO):
    """Sunlight (W/m2) that a planet takes up, averaged over its whole surface: S (1 - a) / 4.

    A sphere has four times the area of its shadow (derived here). `sun_w_m2` on a surface that faces the sun, `albedo` 0 to 1.
    """
    sun = bounded(sun_w_m2, "The sunlight", 0, 100_000, "W/m2")
    return sun * (1 - bounded(albedo, "The reflected share", 0, 1)) / 4


def bare_rock_k(sun_w_m2=SUN_W_M2, albedo=ALBEDO):
    """Temperature (K) at which a planet without absorbing air sends out what it takes up.

    Stefan–Boltzmann law (CODATA 2018) for a black surface of one temperature. Earth's numbers: W/m2 and share, 254.6 K.
    """
    return (absorbed_w_m2(sun_w_m2, albedo) / STEFAN_BOLTZMANN) ** 0.25


def layered_k(sun_w_m2=SUN_W_M2, albedo=ALBEDO, absorbed_share=1.0):
    """Temperature (K) of the surface under one layer of air that passes sunlight and takes up `absorbed_share` of infrared (0 to 1).

    Energy balance of layer and surface: T_bare (2 / (2 - e))^(1/4); Goody & Walker, Atmospheres, 1972 (from memory). A sketch: real
    air cools with height, and that matters.
    """
    taken = bounded(absorbed_share, "The absorbed share", 0, 1)
    return bare_rock_k(sun_w_m2, albedo) * (2 / (2 - taken)) ** 0.25


def forcing_w_m2(co2_ppm, from_ppm=PREINDUSTRIAL_PPM):
    """How much (W/m2) a change of CO2 tips the planet's balance at first: 5.35 ln(C / C0), ppm by volume, 150 to 1,000.

    Myhre, Highwood, Shine & Stordal, Geophys. Res. Lett. 25:2715, 1998 (from memory), about ± 10 %. Another quantity, with quick
    answers of the air in it: `effective_forcing_w_m2`.
    """
    return MYHRE_W_M2 * np.log(_co2_ratio(co2_ppm, from_ppm))


def effective_forcing_w_m2(co2_ppm, from_ppm=PREINDUSTRIAL_PPM):
    """Least, best and most (W/m2) of the effective forcing, very likely range: 3.93 ± 0.47 for each doubling. ppm by volume.

    IPCC AR6 WG1, 2021, chapter 7, executive summary (from memory). Another quantity than `forcing`: the air's quick answers count, too.
    """
    doublings = np.log2(_co2_ratio(co2_ppm, from_ppm))
    return tuple(np.sort([each * doublings for each in DOUBLING_W_M2], axis=0))


def warming_draws_k(co2_ppm, from_ppm=PREINDUSTRIAL_PPM, doubling_k=EQUILIBRIUM_K, draws=20_000):
    """Draws (K) of the warming by a lasting change of CO2 alone (ppm by volume), from the assessed warming by a doubling. One seed.

    Monte Carlo: log warming against normal quantiles, straight between the five assessed points `doubling_k` (IPCC AR6 WG1,
    TS.3.2.1) and beyond; scaled by the logarithm of CO2 (Myhre et al. 1998). Forcing's uncertainty is inside the assessment.
    """
    doublings = np.log2(_co2_ratio(co2_ppm, from_ppm))
    return doublings * _assessed_draws(tuple(doubling_k), int(draws))


def _co2_ratio(co2_ppm, from_ppm):
    start = bounded(from_ppm, "The CO2 at the start", *FITTED_PPM, "ppm", FITTED)
    return bounded(co2_ppm, "The CO2", *FITTED_PPM, "ppm", FITTED) / start


@cache
def _assessed_draws(points, draws):
    """Draws of a positive quantity whose `LEVELS` quantiles are `points`."""
    knots, z = ndtri(LEVELS), np.random.default_rng(SEED).standard_normal(draws)
    piece = np.clip(np.searchsorted(knots, z) - 1, 0, len(knots) - 2)
    slope = np.diff(np.log(points)) / np.diff(knots)
    return np.exp(np.log(points)[piece] + slope[piece] * (z - knots[piece]))
