"""The experiment: two vessels of one kind, one lamp or one bowl of warm water, gas into one and air into the other.

The last axis of every array is (treated, control); a number holds for both.
"""

from dataclasses import dataclass, replace

import numpy as np

from kit.physics.heat.courses import CAUSES, course, Stage

FILLED_AFTER = 4.0  # fizz dies away as exp(-t / fizz_s); after four of these the tube comes out
STIRRING = 2.5  # a small fan's gain in heat carried (our estimate)
FAN_M3_S_PER_M2 = 0.013  # what it blows out of an open mouth: 50 mL/s at 7 cm (our estimate)
BOWL_J_PER_K, BOWL_W_PER_K = 21_000.0, 2.0  # 5 L of warm water round the vessels, and what it loses to the room (our estimate)
SIDES = np.array([1.0, 0.0])


@dataclass(frozen=True, eq=False)
class Setting:
    """Lamp, gas and handling of a pair. Numbers, or arrays whose last axis is (treated, control).

    The usual lamp's W into gas, wall and the light through the gas (gas_w, wall_w, light_w) and its excess of a thermometer in air
    (probe_k, K); `before`, `after`: its strength before and since the gas. `passes`: what a filter lets through of it, `bands`: and
    of CO2's bands. gas_l litres led in from gas_at_s (s) on, ever less as exp(-t / fizz_s), gas_k over the room, the control's air
    air_k; from_below: it lifts the air out. covered: film from the end of filling on. stirred, shaded: 1 or 0. bath_k: warm water
    (K over the room) in place of the lamp, where not NaN.
    """

    gas_w: float = 0.1
    wall_w: float = 4.0
    light_w: float = 1.05
    probe_k: float = 1.3
    before: float = 1.0
    after: float = 1.0
    passes: float = 1.0
    bands: float = 1.0
    gas_l: float = 1.5
    gas_at_s: float = 660.0
    fizz_s: float = 30.0
    gas_k: float = -1.0
    air_k: float = 0.0
    from_below: float = 0.0
    covered: float = 0.0
    stirred: float = 0.0
    shaded: float = 0.0
    bath_k: float = np.nan

    @property
    def filled_s(self):
        """When the tube comes out (s): four `fizz_s` after the gas began to come."""
        return self.gas_at_s + FILLED_AFTER * self.fizz_s


def pair_course(vessel, contents, setting, end_s, *, at_work=(CAUSES,), **steps):
    """`Course` of both vessels until `end_s` (s), last axis (treated, control): kelvin over the room, shares, flows.

    Lumped energy and gas balance of `kit.physics.heat.courses` (derived here). `at_work` and `steps` (longest_step_s,
    lively_w_per_k) as there.
    """
    wet = np.isfinite(setting.bath_k)
    if np.any(wet):
        stored, lost = np.where(wet, BOWL_J_PER_K, vessel.wall_j_per_k), np.where(wet, BOWL_W_PER_K, vessel.wall_to_room_w_per_k)
        vessel = replace(vessel, wall_j_per_k=stored, wall_to_room_w_per_k=lost)
    stages = _stages(vessel, setting, wet, end_s)
    return course(vessel, contents, stages, at_work=at_work, wall_start_k=np.where(wet, setting.bath_k, 0.0), **steps)


def _stages(vessel, setting, wet, end_s):
    """Lamp alone, gas coming in, gas there."""
    fan = {
        "stirred": 1 + (STIRRING - 1) * setting.stirred,
        "stirred_m3_s": setting.stirred * FAN_M3_S_PER_M2 * np.pi / 4 * np.square(vessel.mouth_m),
    }
    poured = {
        "fill_m3_s": 1e-3 * setting.gas_l / setting.fizz_s / -np.expm1(-FILLED_AFTER),
        "fill_fades_s": setting.fizz_s,
        "fill_share": SIDES,
        "fill_k": np.where(SIDES, setting.gas_k, setting.air_k),
        "plain_fill_k": setting.air_k,
        "from_below": setting.from_below,
    }
    before, after = (_lamp(setting, np.where(wet, 0.0, lamp * setting.passes), fan) for lamp in (setting.before, setting.after))
    stages = [Stage(setting.gas_at_s, **before, **fan), Stage(min(setting.filled_s, end_s), **after, **fan, **poured)]
    return [*stages, Stage(end_s, **after, **fan, film=setting.covered)] if end_s > setting.filled_s else stages


def _lamp(setting, strength, fan):
    """The lamp's part of a stage."""
    lit = strength * (1 - setting.shaded) * setting.probe_k / fan["stirred"]
    return {
        "gas_w": strength * setting.gas_w,
        "wall_w": strength * setting.wall_w,
        "light_w": strength * setting.bands * setting.light_w,
        "probe_k": lit,
    }
