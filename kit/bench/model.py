"""From a recipe to the temperatures themselves, before any thermometer adds its noise: two vessels, one lamp, stated causes."""

from functools import cache
from math import inf

import numpy as np

from kit.physics import gases
from kit.physics import conductance_ratio, CONDUCTION, course, MIXED_FLOW, Stage, steady_rise, TURBULENT_FLOW, Vessel

# The usual set-up, reckoned (no source): a 1.5 L canister of thin plastic with a dark tile on its floor, a 75 W lamp at 30 cm.
VOLUME_L, WALL_J_PER_K, GAS_TO_WALL_W_PER_K, WALL_TO_ROOM_W_PER_K, PROBE_LAG_S = 1.5, 60.0, 0.24, 0.6, 12.0
STIRRING = 2.5  # a small fan's gain in heat passed on (reckoned)
# CO2 takes up 1.9 % of a 2700 K filament's light over 10 cm (wide-band reckoning), of some 1.2 W that pass through the gas.
LAMP_LIGHT_IN_CO2_W = 0.019 * 1.2
WALL_INFRARED_W_PER_K = 0.035  # exchange of thermal infrared between 1.5 L of CO2 at 1 atm and its walls (reckoned)
WATER_FILTER_PASSES = 0.55  # of a filament's light; water takes out all beyond about 1.4 µm, so CO2's bands, too (reckoned)
FILLING_S, LEAK_S, OUTSIDE_PPM, WARM_C = 60.0, 3 * 3600.0, 420.0, 27.0  # one minute of gas; then it leaves slowly by the hole in the lid
FINE_STEP_S, STEP_S = 5.0, 20.0  # how finely the filling is followed, and then the leaving of the gas

# What can set the treated vessel apart, in the order in which `reveal` adds the parts up.
GAS_CAUSES = ("wall infrared", "layer", "probe", "lamp light", "cold gas", "heat capacity")
BENCH_CAUSES = ("nudge", "unequal", "drift")
CAUSES = (*GAS_CAUSES, *BENCH_CAUSES)


def temperatures(recipe, times_s, causes=CAUSES):
    """°C that thermometers without noise would show: (treated, control), with only the named `causes` at work."""
    treated = recipe.room_c + course(stages(recipe, True, times_s, causes), times_s)[2]
    control = recipe.room_c + course(stages(recipe, False, times_s, causes), times_s)[2]
    drift = recipe.drift_c_per_min * times_s / 60 if "drift" in causes else 0
    return treated + recipe.offset_c + drift, control


def settled(recipe, share):
    """Rise over the room (K) of the treated thermometer if this share of gas stayed for good, with all of the gas's causes at work."""
    stage = _stage(recipe, -inf, share, _lamp(recipe, True, -inf, ()), GAS_CAUSES)
    return steady_rise(stage.vessel, stage.gas_w, stage.wall_w)[0] + stage.probe_k


def gas_share(recipe, times_s):
    """Share of CO2 or argon (0 to 1) in the treated vessel: filled from below within a minute, then leaving by the lid's hole."""
    since = np.asarray(times_s, float) - 60 * recipe.gas_at_min
    filled = np.clip(since / FILLING_S, 0, 1) * np.exp(-np.maximum(since - FILLING_S, 0) / LEAK_S)
    return recipe.share * filled * (recipe.gas != "air")


def stages(recipe, treated, times_s, causes):
    """The stretches of one vessel's run: lamp alone, then short ones while gas comes and goes."""
    gas_s = 60 * recipe.gas_at_min
    full_s = gas_s + FILLING_S
    starts = [0.0, *(gas_s + np.arange(0, FILLING_S, FINE_STEP_S)), *(full_s + np.arange(0, max(times_s[-1] - full_s, 0) + STEP_S, STEP_S))]
    middles = np.add(starts, np.diff(starts, append=starts[-1] + STEP_S) / 2)
    shares = gas_share(recipe, middles) if treated else np.zeros(len(starts))
    return [_stage(recipe, start, share, _lamp(recipe, treated, start, causes), causes) for start, share in zip(starts, shares)]


def _lamp(recipe, treated, start_s, causes):
    """The lamp on this vessel against the usual: its strength, the filter, and how much more of it the left side gets."""
    after = start_s >= 60 * recipe.gas_at_min
    lean = recipe.unequal * ("unequal" in causes) + recipe.nudge * (after and "nudge" in causes)
    left = treated != recipe.swapped
    return recipe.lamp * (1 + lean / 2 if left else 1 - lean / 2) * (WATER_FILTER_PASSES if recipe.filtered else 1)


def _stage(recipe, start_s, share, lamp, causes):
    """One stretch with this share of gas: what it does to heat capacity, to the heat passed on, and to what is taken up."""
    carried = 1 - share * (1 - heat_carried(recipe.gas, recipe.stirred))
    fan, co2 = STIRRING if recipe.stirred else 1, share * (recipe.gas == "CO2")
    to_wall = GAS_TO_WALL_W_PER_K * fan * (carried if "layer" in causes else 1) + WALL_INFRARED_W_PER_K * co2 * ("wall infrared" in causes)
    capacity = recipe.tile_j_per_k + _capacity(recipe.gas, share * ("heat capacity" in causes))
    taken_up = lamp * LAMP_LIGHT_IN_CO2_W * co2 * ("lamp light" in causes and not recipe.filtered)
    inside_w = lamp * recipe.tile_w + taken_up + _inflow_w(recipe, start_s, share, causes)
    probe_k = 0 if recipe.shaded else lamp * recipe.probe_k / fan / (carried if "probe" in causes else 1)
    vessel = Vessel(capacity, WALL_J_PER_K, to_wall, WALL_TO_ROOM_W_PER_K, PROBE_LAG_S)
    return Stage(start_s, vessel, inside_w, lamp * recipe.wall_w, probe_k)


def _capacity(gas, share):
    return share * filled_j_per_k(gas) + (1 - share) * filled_j_per_k("air")


@cache
def heat_carried(gas, stirred):
    """Heat that a vessel full of `gas` carries to its wall over what air carries: a still layer conducts, a stirred vessel also flows.

    Stirred: midway between the two laws of free flow, `kit.physics.convection`.
    """
    return np.mean([conductance_ratio(gas, exponent) for exponent in ((MIXED_FLOW, TURBULENT_FLOW) if stirred else (CONDUCTION,))])


@cache
def filled_j_per_k(gas):
    """Heat capacity (J/K) of a vessel full of `gas`, at the density of warm room air."""
    return 1e-3 * VOLUME_L * gases.density_kg_m3(gas, WARM_C) * gases.heat_capacity_j_kg_k(gas, WARM_C)


def _inflow_w(recipe, start_s, share, causes):
    """Watts by which gas cools the vessel as it comes in colder than the control's air, which sets the zero."""
    flowing = 0 <= start_s - 60 * recipe.gas_at_min < FILLING_S and share > 0
    if not flowing or "cold gas" not in causes:
        return 0.0
    return -recipe.gas_colder_k * filled_j_per_k(recipe.gas) / FILLING_S
