"""What a gas led into the vessel changes there, as numbers for `kit.physics.heat.courses`: weight, heat, flow, light and infrared."""

from dataclasses import dataclass

import numpy as np

from kit.physics.checking import one_of
from kit.physics.constants import ROOM_K, ZERO_C_K
from kit.physics.gas import gases
from kit.physics.heat.convection import conductance_ratio, MIXED_FLOW, TURBULENT_FLOW
from kit.physics.heat.mouth import AIR_J_M3_K, diffusion_m3_s, heavier_by
from kit.physics.light import FILAMENT_K, lamp_absorbed_share

# A thermometer in the beam: its excess over the gas in the pure gas against air, by Nusselt's and radiation's shares of what cools
# it: 1.09 to 1.42 in CO2, 1.17 to 1.45 in argon (our estimate, no source). The middle of each.
PROBE_GAIN = {"CO2": 1.25, "argon": 1.31, "air": 1.0}
INFRARED_W_PER_K = 0.035  # exchanged between 1.5 L of CO2 at 1 atm and its walls (our estimate)
INFRARED_POWER, LIGHT_POWER = 0.33, 0.25  # what a share y takes up, against pure gas: y to this power; from `kit.physics.light.absorption`
PATH_M = 0.1  # of the light through the gas


@dataclass(frozen=True, eq=False)
class GasBesideAir:
    """A pure gas beside air. Without unit: heavier (M / M_air - 1), heat (held by volume), carried (to the wall, where it is mixed),
    layered (the same, once more, where it lies in layers under an open mouth), probe_gain, light_taken (share of the lamp's). W/K:
    infrared_w_per_k with the walls. m3/s: diffusion_m3_s out of the open mouth. Arrays broadcast over the vessels."""

    heavier: float
    heat: float
    carried: float
    probe_gain: float
    diffusion_m3_s: float
    layered: float = 1.0
    light_taken: float = 0.0
    infrared_w_per_k: float = 0.0


def contents_of(gas, volume_l=1.5, depth_m=0.19, lamp_k=FILAMENT_K, **changes):
    """The `GasBesideAir` of a vessel (L, m deep) into which 'CO2', 'argon' or 'air' is led, under a lamp of `lamp_k` (K).

    `changes` are fields that are known better. A filament of 2400 K gives CO2 a larger share of its light than one of 2700 K, and a dark
    heater at 600 K three times as much: `kit.physics.light.absorption.lamp_absorbed_share`.

    Ideal gas law, `kit.physics.gas.gases`, `kit.physics.heat.convection` (midway between the two laws of free flow), `kit.physics.heat.mouth`;
    what light and infrared do is computed from `kit.physics.light.absorption` (derived here). A Fault for another gas.
    """
    one_of(gas, "The gas", PROBE_GAIN)
    taken, exchanged = lamp_absorbed_share(PATH_M, 1.0, lamp_k), INFRARED_W_PER_K * volume_l / 1.5
    own = {"light_taken": taken, "infrared_w_per_k": exchanged} if gas == "CO2" else {}
    room_c = ROOM_K - ZERO_C_K
    usual = {
        "heavier": heavier_by(gas),
        "heat": gases.density_kg_m3(gas, room_c) * gases.heat_capacity_j_kg_k(gas, room_c) / AIR_J_M3_K,
        "carried": np.mean([conductance_ratio(gas, exponent) for exponent in (MIXED_FLOW, TURBULENT_FLOW)]),
        "probe_gain": PROBE_GAIN[gas],
        "diffusion_m3_s": diffusion_m3_s(gas, volume_l, depth_m),
    }
    return GasBesideAir(**{**usual, **own, **changes})
