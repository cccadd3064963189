"""Plausible benches: every number that a class doesn't know drawn from its range, and each kind of run made of it by the model."""

from dataclasses import dataclass, fields, replace

import numpy as np

from kit.faults import Fault
from kit.physics import CAUSES, Setting, Vessel, bounded, contents_of, pair_course

# Least and most that can be believed of each input, and its unit.
LIMITS = {
    "mouth_cm": ("cm", 1, 30), "exchange": ("", 0.1, 5), "draught_ml_s": ("mL/s", 0, 50), "plume_ml_j": ("mL/J", 0, 50),
    "volume_l": ("L", 0.1, 20), "depth_cm": ("cm", 3, 60), "gas_j_k": ("J/K", 0.1, 1_000), "wall_j_k": ("J/K", 1, 10_000),
    "gas_to_wall_w_k": ("W/K", 0.01, 20), "wall_to_room_w_k": ("W/K", 0.01, 20), "card_w": ("W", 0, 20), "wall_w": ("W", 0, 100),
    "taken_w": ("W", 0, 5), "infrared_w_k": ("W/K", 0, 1), "layered": ("", 0.1, 1),
    "probe_k": ("K", 0, 20), "probe_lag_s": ("s", 0, 300), "probe_gains": ("", 0, 1), "flow": ("", 0, 1), "gas_l": ("L", 0.01, 50),
    "quiet": ("", 0, 1), "gas_colder_k": ("K", -50, 50), "passes": ("", 0.05, 1), "bath_k": ("K", 1, 60), "nudge": ("", -0.5, 0.5),
}  # fmt: skip
REFILLED = 0.1  # fillings of one bench differ by about so much (common practice, no source)
CAUSE_LETTERS = CAUSES + "f"
STEPS = {"longest_step_s": 20.0, "lively_w_per_k": 0.01}  # many benches at once: within 0.02 °C of finer steps
WINDOW_S, GAS_S, AFTER_S, WAITED_S = 60.0, 660.0, 600.0, 2700.0


# Kind of run -> what it changes on the bench.
KINDS = {
    "gas": {},
    "air": {"gas": "air"},
    "argon": {"gas": "argon"},
    "stirred": {"stirred": 1.0},
    "shaded": {"shaded": 1.0},
    "covered": {"covered": 1.0},
    "covered_shaded": {"covered": 1.0, "shaded": 1.0},
    "filtered": {"bands": 0.0},
    "swapped": {"side": -1.0},
    "waited": {"after_s": WAITED_S},
    "dark": {"dark": True},
}


@dataclass(frozen=True)
class Plausible:
    """What a bench may be: each input a pair (least, most), or one number where a class knows it. All for 1.5 L, estimated (no source).

    mouth_cm, exchange (against the formula), draught_ml_s, plume_ml_j: what leaves by the mouth. volume_l, depth_cm. Heat capacities
    gas_j_k, wall_j_k; conductances gas_to_wall_w_k, wall_to_room_w_k. The lamp: card_w into the gas, wall_w, taken_w by pure CO2 of the
    light through it, probe_k on a thermometer, whose lag is probe_lag_s. The gas: infrared_w_k with the walls; layered, how
    much of its heat a gas in layers still carries; probe_gains and flow from 0 to 1, least to most of their published spread. gas_l
    led in, quiet from 0 (mixing) to 1 (from below), gas_colder_k than the control's air. A filter passes so much; warm water stands
    bath_k over the room; nudge: how the lamp leans to one side since the gas.
    """

    mouth_cm: tuple = (6, 8)
    exchange: tuple = (0.5, 2)
    draught_ml_s: tuple = (0, 3)
    plume_ml_j: tuple = (0, 6)
    volume_l: tuple = (1.5, 1.5)
    depth_cm: tuple = (18, 20)
    gas_j_k: tuple = (1.8, 2.3)
    wall_j_k: tuple = (60, 300)
    gas_to_wall_w_k: tuple = (0.2, 0.4)
    wall_to_room_w_k: tuple = (0.4, 0.7)
    card_w: tuple = (0.05, 0.6)
    wall_w: tuple = (1.5, 6)
    taken_w: tuple = (0, 0.12)
    infrared_w_k: tuple = (0.03, 0.04)
    layered: tuple = (0.35, 1)
    probe_k: tuple = (0.3, 3)
    probe_lag_s: tuple = (5, 60)
    probe_gains: tuple = (0, 1)
    flow: tuple = (0, 1)
    gas_l: tuple = (1, 2.2)
    quiet: tuple = (0, 1)
    gas_colder_k: tuple = (-2, 15)
    passes: tuple = (0.3, 0.7)
    bath_k: tuple = (10, 20)
    nudge: tuple = (-0.02, 0.02)

    def __post_init__(self):
        for each in fields(self):
            unit, low, high = LIMITS[each.name]
            ends = np.atleast_1d(bounded(getattr(self, each.name), each.name, low, high, unit))
            if ends.size > 2 or ends[0] > ends[-1]:
                raise Fault(f"{each.name} must be one number or a pair, least before most. This was given: {getattr(self, each.name)!r}.")
            object.__setattr__(self, each.name, (float(ends[0]), float(ends[-1])))


def plausible_with(changes):
    """`Plausible` benches of which a class knows these inputs (a dict: numbers or pairs); a Fault lists the names where one is unknown."""
    unknown = sorted(set(changes or {}) - set(LIMITS))
    if unknown:
        raise Fault(f"There is no input {unknown[0]!r}. Inputs: {', '.join(LIMITS)}.")
    return Plausible(**(changes or {}))


def drawn(ranges, count, seed):
    """`count` benches: name -> values (count, 1). Spread evenly; `exchange` by its logarithm, since half and twice are alike. `refilled`,
    (count, kinds of run): how each run's filling differs from the bench's usual one."""
    from scipy.stats import qmc

    evenly = qmc.LatinHypercube(len(LIMITS), rng=np.random.default_rng(seed)).random(count)
    bench = {"refilled": 1 + REFILLED * np.random.default_rng((seed, 1)).uniform(-1, 1, (count, len(KINDS)))}
    for place, name in enumerate(LIMITS):
        low, high = getattr(ranges, name)
        part = evenly[:, [place]]
        bench[name] = low * (high / low) ** part if name == "exchange" else low + (high - low) * part
    return bench


def parts_of(bench, kind):
    """(vessel, contents, setting) of this kind of run on each bench, shape (benches, 1), sides in the setting."""
    change = KINDS[kind]
    lean = np.array([0.5, -0.5]) * bench["nudge"] * change.get("side", 1.0)
    setting = Setting(
        gas_w=bench["card_w"],
        wall_w=bench["wall_w"],
        light_w=bench["taken_w"],
        probe_k=bench["probe_k"],
        after=1 + lean,
        passes=bench["passes"] if kind == "filtered" else 1.0,
        bands=change.get("bands", 1.0),
        gas_l=bench["gas_l"] * bench["refilled"][:, [list(KINDS).index(kind)]],
        gas_at_s=GAS_S,
        gas_k=-bench["gas_colder_k"] * (change.get("gas") != "air"),
        from_below=bench["quiet"],
        covered=change.get("covered", 0.0),
        stirred=change.get("stirred", 0.0),
        shaded=change.get("shaded", 0.0),
        bath_k=bench["bath_k"] if change.get("dark") else np.nan,
    )
    return _vessel(bench), _contents(bench, change.get("gas", "CO2")), setting


def _vessel(bench):
    return Vessel(
        gas_j_per_k=bench["gas_j_k"],
        wall_j_per_k=bench["wall_j_k"],
        gas_to_wall_w_per_k=bench["gas_to_wall_w_k"],
        wall_to_room_w_per_k=bench["wall_to_room_w_k"],
        probe_lag_s=bench["probe_lag_s"],
        mouth_m=bench["mouth_cm"] / 100,
        exchange=bench["exchange"],
        draught_m3_s=1e-6 * bench["draught_ml_s"],
        plume_m3_j=1e-6 * bench["plume_ml_j"],
        volume_l=bench["volume_l"],
        depth_m=bench["depth_cm"] / 100,
    )


def _contents(bench, gas):
    """The gas with what is not sure of it: the law of its flow, the thermometer's gain, the light and infrared it takes up."""
    mixed = {"CO2": (0.893, 1.0), "argon": (0.706, 0.716), "air": (1.0, 1.0)}[gas]  # n = 1/4 and 1/3: `kit.physics.heat.convection`
    gain = {"CO2": (1.09, 1.42), "argon": (1.17, 1.45), "air": (1.0, 1.0)}[gas]
    own = {"light_taken": 1.0, "infrared_w_per_k": bench["infrared_w_k"]} if gas == "CO2" else {}
    carried, gained = (low + (high - low) * part for (low, high), part in ((mixed, bench["flow"]), (gain, bench["probe_gains"])))
    layered = bench["layered"] if gas != "air" else 1.0
    return contents_of(gas, bench["volume_l"], bench["depth_cm"] / 100, carried=carried, probe_gain=gained, layered=layered, **own)


def windows_of(course, kind):
    """Mean of treated - control in the response less that in the baseline (°C), and the gas's share in the response (0 to 1)."""
    read_s = GAS_S + KINDS[kind].get("after_s", AFTER_S)
    before, after = np.linspace(GAS_S - WINDOW_S, GAS_S, 7), np.linspace(read_s - WINDOW_S / 2, read_s + WINDOW_S / 2, 7)
    difference = [(found[..., 0] - found[..., 1]).mean(0) for found in (course.at(before), course.at(after))]
    return difference[1] - difference[0], course.at(after, "share")[..., 0].mean(0)


def effects_by_cause(bench, kind):
    """(made, whole, share) in this kind of run on each bench: °C that each of `CAUSE_LETTERS` makes, (causes, benches); the whole
    effect and the gas's share at reading, (benches,).

    The mouth's part (m) by itself, each other cause as what it adds once that is there, f as what the lamp's nudge adds to all.
    """
    end_s = GAS_S + KINDS[kind].get("after_s", AFTER_S) + WINDOW_S / 2 + 1
    vessel, contents, setting = parts_of(bench, kind)
    sets = (CAUSES, "", "m", *("m" + letter for letter in CAUSES[1:]))
    straight, share = windows_of(pair_course(vessel, contents, replace(setting, after=1.0), end_s, at_work=sets, **STEPS), kind)
    whole, _ = windows_of(pair_course(vessel, contents, setting, end_s, **STEPS), kind)
    together, bare, mouth, *others = straight
    return np.vstack([mouth - bare, np.array(others) - mouth, whole - together]), whole, share
