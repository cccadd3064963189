"""What the model expects of the class's own pair before anybody has run it: the least and the most over what the class doesn't know."""

from dataclasses import dataclass, replace
from itertools import product

import numpy as np

from kit.analysis.planning import gas_dose
from kit.bench.model import parts
from kit.bench.recipe import recipe_with
from kit.estimate import Range
from kit.physics import flip_share, pair_course
from kit.settings import class_settings

# What a class hardly knows of its bench, least and most. A straight jar changes more air at its mouth than one under a rim: half to three
# times the formula, half to twice (kit.physics.mouth). The rest as plausible benches have it (kit.analysis.causes); our estimates, no source.
UNDER_A_RIM, STRAIGHT, NEARLY_STRAIGHT = (0.5, 2.0), (0.5, 3.0), 0.8
DRAUGHT_ML_S, PROBE_K, LAYERED = (0.0, 3.4), (0.3, 3.0), (0.6, 1.0)
SAID = ("volume_l", "depth_cm", "mouth_cm", "gas_at_min")  # the lamp's part of the settings comes with the usual recipe
SOON_MIN, LONGEST_MIN = 5.0, 60.0
STEPS = {"longest_step_s": 20.0, "lively_w_per_k": 0.005}


@dataclass(frozen=True)
class Expected:
    """`effect`: extra warming of the treated vessel at the class's reading; `soon`: five minutes after the gas, both as a `Range`.
    `control`: how far the control stands above the room when the gas goes in. `share`: CO2 in the treated vessel at the reading (%).
    `gone`: minutes after the gas until warm air comes in again; its end stands at 60 where the model sees none in an hour."""

    effect: Range
    soon: Range
    control: Range
    share: Range
    gone: Range


def expected_pair():
    """The `Expected` of the vessel, lamp, gas and timing in the class's settings. The kit's vessel model, over every pair of ends of what a
    class doesn't know: exchange at the mouth, draught, way of filling, gas made, thermometer in the beam. Nobody has measured it."""
    said = class_settings()
    vessel, contents, setting = parts(recipe_with({name: said[name] for name in SAID}))
    litres = gas_dose().litres
    ends = product(_exchange(said), DRAUGHT_ML_S, PROBE_K, LAYERED, (0.0, 1.0), (litres.low, litres.high))
    exchange, draught, probe, layered, below, gas_l = np.array(list(ends)).T[..., None]
    vessel, contents = replace(vessel, exchange=exchange, draught_m3_s=1e-6 * draught), replace(contents, layered=layered)
    setting = replace(setting, probe_k=probe, from_below=below, gas_l=gas_l)
    course = pair_course(vessel, contents, setting, setting.gas_at_s + 60 * LONGEST_MIN, **STEPS)
    at_s = setting.gas_at_s + 60 * np.array([0, SOON_MIN, said["read_after_min"]])
    warmth = course.at(at_s)
    before, soon, read = warmth[..., 0] - warmth[..., 1]
    return Expected(
        effect=_ends(read - before, "°C"),
        soon=_ends(soon - before, "°C"),
        control=_ends(warmth[0, :, 1], "°C"),
        share=_ends(100 * course.at(at_s, "share")[2, :, 0], "%"),
        gone=_ends(_gone_min(course, setting), "min"),
    )


def _exchange(said):
    floor_cm2 = 1000 * said["volume_l"] / said["depth_cm"]
    return STRAIGHT if np.pi / 4 * said["mouth_cm"] ** 2 >= NEARLY_STRAIGHT * floor_cm2 else UNDER_A_RIM


def _gone_min(course, setting):
    """Minutes after the gas until the treated gas is as light as the room's air, in each case; `LONGEST_MIN` where it stays heavier."""
    light = course.share[..., 0] <= flip_share(np.maximum(course.gas_k[..., 0], 0))
    light &= (course.times_s > setting.filled_s)[:, None]
    first = np.where(light.any(axis=0), course.times_s[light.argmax(axis=0)], setting.gas_at_s + 60 * LONGEST_MIN)
    return (first - setting.gas_at_s) / 60


def _ends(values, unit):
    return Range(float(np.min(values)), float(np.max(values)), unit)
