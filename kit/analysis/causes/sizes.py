"""How large each rival cause could be in a stated vessel: least and most over all plausible values of what it depends on.

Each formula is a small energy balance of ours on published physics (`kit.physics`); the vessel's numbers are reckoned and meant to be
replaced by a class's own. Every input is a number or a pair (least, most).
"""

from dataclasses import dataclass, fields
from functools import lru_cache
from types import SimpleNamespace

import numpy as np

from kit.estimate import Range
from kit.faults import Fault
from kit.physics import absorption, convection, gases
from kit.physics import bounded

# Name of each input, its unit, and the least and most that can be believed.
LIMITS = {
    "gas_share": ("", 0.01, 1),
    "irradiance_w_m2": ("W/m2", 1, 5_000),
    "lit_cm2": ("cm2", 1, 10_000),
    "inside_w": ("W", 0, 50),
    "path_m": ("m", 0.01, 1),
    "depth_m": ("m", 0.01, 2),
    "gas_to_wall_w_k": ("W/K", 0.01, 20),
    "wall_to_room_w_k": ("W/K", 0.01, 20),
    "gas_j_k": ("J/K", 0.1, 1_000),
    "wall_j_k": ("J/K", 1, 100_000),
    "wall_m2": ("m2", 0.001, 10),
    "probe_takes_up": ("", 0, 1),
    "probe_w_m2_k": ("W/m2/K", 1, 500),
    "gas_l": ("L", 0, 100),
    "colder_k": ("K", -50, 100),
    "disturbed_k": ("K", -20, 20),
    "lamp_rise_k": ("K", 0, 60),
    "lamp_on_min": ("min", 0, 600),
    "read_after_min": ("min", 0.1, 600),
}

STEPS = 5  # values tried of each input


@dataclass(frozen=True)
class Scene:
    """A vessel, its lamp and its thermometer, each input a number or a pair (least, most). All reckoned for 1.5 L (no source).

    `irradiance_w_m2` of lamp light at the vessel: 75 W spread evenly give 66 W/m2 at 30 cm, a reflector several times that;
    `lit_cm2` faces the lamp. `inside_w` of light is taken up inside the vessel by thermometer, floor or insert. `path_m` through the gas,
    `depth_m` from mouth to bottom.
    Conductances gas to wall and wall to room, heat capacities, area of the walls. The thermometer takes up the share `probe_takes_up` of
    the light on it and gives off `probe_w_m2_k`. `gas_l` come in `colder_k` below the vessel. `disturbed_k`: what handling, lamp and side
    may do, unless an air run tells. `lamp_rise_k` is the lamp's own warming, lit `lamp_on_min` before; read `read_after_min` after.
    """

    gas_share: tuple = (0.4, 0.95)
    irradiance_w_m2: tuple = (60, 250)
    lit_cm2: tuple = (80, 120)
    inside_w: tuple = (0.02, 1.0)
    path_m: tuple = (0.08, 0.12)
    depth_m: tuple = (0.10, 0.15)
    gas_to_wall_w_k: tuple = (0.2, 0.4)
    wall_to_room_w_k: tuple = (0.4, 0.7)
    gas_j_k: tuple = (1.8, 2.3)
    wall_j_k: tuple = (60, 300)
    wall_m2: tuple = (0.05, 0.07)
    probe_takes_up: tuple = (0.2, 0.6)
    probe_w_m2_k: tuple = (15, 30)
    gas_l: tuple = (1.0, 2.2)
    colder_k: tuple = (3, 15)
    disturbed_k: tuple = (-2, 2)
    lamp_rise_k: tuple = (4, 10)
    lamp_on_min: tuple = (10, 10)
    read_after_min: tuple = (10, 10)

    def __post_init__(self):
        for each in fields(self):
            object.__setattr__(self, each.name, _pair(each.name, getattr(self, each.name)))


def scene_of(changes):
    """A Scene with these changes; a Fault that lists the names where one is unknown."""
    unknown = sorted(set(changes) - set(LIMITS))
    if unknown:
        raise Fault(f"There is no input {unknown[0]!r}. Inputs: {', '.join(LIMITS)}.")
    return Scene(**changes)


def _pair(name, value):
    unit, low, high = LIMITS[name]
    ends = np.atleast_1d(bounded(value, name, low, high, unit))
    if ends.size > 2 or ends[0] > ends[-1]:
        raise Fault(f"{name} must be one number or a pair, least before most. This was given: {value!r}.")
    return float(ends[0]), float(ends[-1])


def size_of(letter, scene, gas="CO2"):
    """Range (°C) of extra warming by the cause with this letter, once the gas is in and at the time of reading."""
    return _span(SIZES[letter](_tried(scene), gas), "°C")


def excess_k(scene):
    """How much warmer (°C) than the wall the gas or an insert sits, from the watts taken up inside: P / U."""
    at = _tried(scene)
    return _span(at.inside_w / at.gas_to_wall_w_k, "°C")


def layer_fades_min(scene, gas):
    """Minutes in which a layer in the open vessel fades to 1/e by diffusion alone; draughts are quicker."""
    return _span(convection.layer_lifetime_s(gas, _tried(scene).depth_m) / 60, "min")


def light_taken_up(scene):
    """Percent of a filament's light that CO2 takes up on its path if nothing stands before it, with the spread of correlations."""
    at = _tried(scene)
    taken = 100 * absorption.lamp_absorbed_share(at.path_m, at.gas_share)
    return _span([taken * factor for factor in absorption.EMISSIVITY_SPREAD], "%")


def _span(found, unit):
    return Range(float(np.min(found)), float(np.max(found)), unit)


@lru_cache(maxsize=4)
def _tried(scene):
    """Every input as an array along an axis of its own: its ends, and values between them, since a formula may turn round there."""
    values = (np.unique(np.linspace(*getattr(scene, each.name), STEPS)) for each in fields(scene))
    return SimpleNamespace(**dict(zip(LIMITS, np.meshgrid(*values, indexing="ij", sparse=True))))


def lamp_light(at, gas):
    """Nothing, if glass or lamp blocks the bands; at most all the light in them, warming gas and then wall: P (1/U + 1/U')."""
    bands = absorption.co2_band_shares(2700.0)[:2].sum() if gas == "CO2" else 0.0
    most = at.irradiance_w_m2 * at.lit_cm2 * 1e-4 * bands * (1 / at.gas_to_wall_w_k + 1 / at.wall_to_room_w_k)
    return np.stack([0 * most, most])


def wall_infrared(at, gas):
    """A gas warmer than its walls by P / U sends them infrared, too, so its excess shrinks by U_r / (U + U_r)."""
    if gas != "CO2":
        return np.zeros(1)
    emissivity = np.stack(absorption.co2_emissivity_range(at.path_m, at.gas_share))
    swapped = absorption.exchange_w_m2_k(emissivity) * at.wall_m2
    return -at.inside_w / at.gas_to_wall_w_k * swapped / (at.gas_to_wall_w_k + swapped)


def still_layer(at, gas):
    """The excess P / U grows as less heat gets to the wall: from strong flow (hardly a change) to conduction alone."""
    return at.inside_w / at.gas_to_wall_w_k * _grown(gas, at.gas_share, convection.TURBULENT_FLOW)


def probe_in_beam(at, gas):
    """A thin rod in the light sits a E / (π h) above the gas (its shadow over its surface), and more where gas cools it less."""
    excess = at.probe_takes_up * at.irradiance_w_m2 / (np.pi * at.probe_w_m2_k)
    return excess * _grown(gas, at.gas_share, convection.MIXED_FLOW)


def cold_gas(at, gas):
    """Cold gas takes heat from the wall, which the room gives back: -V ρ cp ΔT / C · exp(-t U' / C)."""
    taken_j = at.gas_l * 1e-3 * _volume_heat(gas) * at.colder_k
    return -taken_j / at.wall_j_k * np.exp(-60 * at.read_after_min * at.wall_to_room_w_k / at.wall_j_k)


def disturbance(at, gas):
    """Nothing can be computed: what an air run shows, or the usual size of such slips (common practice, no source)."""
    return at.disturbed_k


def heat_capacity(at, gas):
    """No change of the level; what is left of the lamp's warming comes a little later or sooner: rest · (t/τ) e^(-t/τ) · -Δτ/τ."""
    tau_s = (at.gas_j_k + at.wall_j_k) / at.wall_to_room_w_k
    slower = (_volume_heat(gas) / _volume_heat("air") - 1) * at.gas_j_k / (at.gas_j_k + at.wall_j_k)
    part = 60 * at.read_after_min / tau_s
    return -at.lamp_rise_k * np.exp(-60 * at.lamp_on_min / tau_s) * part * np.exp(-part) * slower


SIZES = {"a": lamp_light, "b": wall_infrared, "c": still_layer, "d": probe_in_beam, "e": cold_gas, "f": disturbance, "g": heat_capacity}


def _grown(gas, gas_share, exponent):
    """By what part an excess over the wall grows when this share of gas replaces air: two ends, conduction alone and flow."""
    mixed = {gas: gas_share, "air": 1 - gas_share} if gas != "air" else "air"
    exponents = np.reshape([convection.CONDUCTION, exponent], (2,) + (1,) * np.ndim(gas_share))
    return 1 / convection.conductance_ratio(mixed, exponents) - 1


def _volume_heat(gas):
    """Heat capacity of a cubic metre at 27 °C (J/m3/K)."""
    return gases.density_kg_m3(gas, 26.85) * gases.heat_capacity_j_kg_k(gas, 26.85)
