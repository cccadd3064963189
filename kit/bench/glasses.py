"""Two drinking glasses in warm water, without a lamp: what the model expects of a glass of any size, from its least case to its most."""

from dataclasses import dataclass, replace

import numpy as np

from kit.bench.model import GAS_TO_WALL_W_M2_K, parts, WALL_TO_ROOM_W_M2_K
from kit.bench.recipe import Recipe
from kit.physics import pair_course

# The exchange at the mouth against the formula: half, as under a rim, to three times, as in a straight jar (kit.physics.heat.mouth).
# Poured gas may mix with the air on its way down (0), or lift it out (1).
EXCHANGES, FILLINGS = np.meshgrid([0.5, 3.0], [0.0, 1.0])
EXCHANGES, FILLINGS = EXCHANGES.reshape(-1, 1), FILLINGS.reshape(-1, 1)
DRAUGHT_ML_S = {"still": 0.3, "moving": 3.4}  # somebody sits there; 3.4 carries 0.004 W/K, air at 0.2 m/s (reckoned, no source)
THIN_STEM_S = 40.0  # lag in air of a household thermometer with a thin stem (common practice, no source)
RIM_CM, RIM_PART = 3.5, 0.5  # of wall that stands out of the water: two fingers, in a low cup half its depth (the lesson's set-up)
COLD_K, BEFORE_MIN, STEPS = 3.0, 3.0, {"longest_step_s": 30.0, "lively_w_per_k": 0.006}
ENOUGH = 0.8  # of the most that it comes to: while it is above, the glass may be read
GRID_MIN = 0.25


@dataclass(frozen=True, eq=False)
class GlassCourse:
    """What a treated glass warms more than its twin: `effects_c` (minutes, cases) at `minutes` after gas or film; `shares` of gas likewise.

    `ready_min`, `gone_min`: from when until when every case is near its most; the second before the first where there is no such time.
    """

    minutes: np.ndarray
    effects_c: np.ndarray
    shares: np.ndarray
    ready_min: float
    gone_min: float

    @property
    def size_c(self):
        """(least, most) that may be read then, °C."""
        then = (self.minutes >= self.ready_min) & (self.minutes <= max(self.gone_min, self.ready_min))
        means = self.effects_c[then].mean(axis=0)
        return float(means.min()), float(means.max())


def glass_course(depth_cm, mouth_cm, water_c, *, film=False, air="still", watch_min=30):
    """The `GlassCourse` of a straight glass (cm deep, cm wide) in water of `water_c` °C, in a room of 21 °C.

    A glassful of CO2 is poured into one of two, or, with `film`, film laid over it. The cases: exchange at the mouth and way of filling,
    each at its least and its most. `air` over the mouth: 'still' or 'moving'. The kit's vessel model with a rim out of the water, which the
    room cools; steam and warm air from the bowl, which would make the effect smaller, are left out. Nobody has measured it.
    """
    volume_l = np.pi / 4 * mouth_cm**2 * depth_cm / 1000
    inside = {"volume_l": volume_l, "depth_cm": depth_cm, "mouth_cm": mouth_cm, "draught_ml_s": DRAUGHT_ML_S[air]}
    gas = {"gas": "air", "gas_l": 0.0, "covered": "treated"} if film else {"gas_l": volume_l}
    recipe = Recipe(dark=True, fizz_s=5, gas_at_min=BEFORE_MIN, bath_c=water_c, gas_colder_k=COLD_K, **inside, **gas)
    vessel, contents, setting = in_water(*parts(recipe))
    vessel = replace(vessel, exchange=EXCHANGES, probe_lag_s=THIN_STEM_S)
    course = pair_course(vessel, contents, replace(setting, from_below=FILLINGS), 60 * (BEFORE_MIN + watch_min), **STEPS)
    minutes = np.arange(0, watch_min + GRID_MIN / 2, GRID_MIN)
    at_s = 60 * (BEFORE_MIN + minutes)
    warmth = course.at(at_s)
    effects = warmth[..., 0] - warmth[..., 1]
    return GlassCourse(minutes, effects, course.at(at_s, "share")[..., 0], *_readable(minutes, effects))


def in_water(vessel, contents, setting):
    """The parts of a straight glass whose rim stands out of the water.

    The gas passes heat to the wet wall, as warm as the water, and through the rim to the room. To the gas that is one wall with both
    conductances, as warm as their mean by weight (two conductances side by side, derived here).
    """
    depth_m, mouth_m = vessel.depth_m, vessel.mouth_m
    rim_m2 = np.pi * mouth_m * min(RIM_CM / 100, RIM_PART * depth_m)
    wet_w = vessel.gas_to_wall_w_per_k - GAS_TO_WALL_W_M2_K * rim_m2
    rim_w = rim_m2 / (1 / GAS_TO_WALL_W_M2_K + 1 / WALL_TO_ROOM_W_M2_K)
    both_w = wet_w + rim_w
    return replace(vessel, gas_to_wall_w_per_k=both_w), contents, replace(setting, bath_k=setting.bath_k * wet_w / both_w)


def _readable(minutes, effects):
    """(from, until): minutes between which every case is near its most, the first rounded up to half a minute, the second down."""
    near = effects >= ENOUGH * effects.max(axis=0)
    starts, ends = minutes[near.argmax(axis=0)], minutes[len(minutes) - 1 - near[::-1].argmax(axis=0)]
    return float(np.ceil(2 * starts.max()) / 2), float(np.floor(2 * ends.min()) / 2)
