"""What a simulated run is made from: every choice of the learner and every hidden cause, in one frozen list."""

from dataclasses import dataclass, fields

import numpy as np

from kit.faults import Fault
from kit.physics import bounded
from kit.settings import class_settings
from kit.words import listed

GASES = {"co2": "CO2", "argon": "argon", "air": "air"}
USUAL_LAMP_W, AFTER_READING_MIN = 4.0, 0.5
LAMP_K = {"filament": 2700.0, "halogen": 2900.0, "dark": 600.0}  # how hot each kind glows (common practice, no source)
SWITCHES = ("stirred", "shaded", "filtered", "swapped", "dark", "room")
# What else can be chosen by name: the switch and its values.
NAMED = {"covered": (False, True, "treated"), "filling": ("mixing", "below")}
# What each number may be: (lowest, highest). Wide enough for odd benches, narrow enough to catch a slip of the pen.
LIMITS = {
    "gas_at_min": (1, 600), "warmed_min": (0, 600), "watch_min": (1, 600), "step_s": (0.1, 600), "display_c": (0, 5), "noise_c": (0, 5),
    "correlation_s": (0, 3600), "shared_c": (0, 5), "seed": (0, 2**63), "volume_l": (0.05, 20), "depth_cm": (3, 60),
    "mouth_cm": (1, 40), "gas_l": (0, 50), "fizz_s": (1, 600), "lamp": (0, 10), "lamp_k": (400, 3000), "card_w": (0, 20), "wall_w": (0, 50),
    "light_w": (0, 50), "probe_k": (0, 20), "thick": (0.1, 20), "tile_j_per_k": (0, 5000), "exchange": (0, 5),
    "draught_ml_s": (0, 100), "layered": (0.1, 1), "gas_colder_k": (-50, 50), "unequal": (-0.5, 0.5), "nudge": (-0.5, 0.5),
    "offset_c": (-20, 20), "drift_c_per_min": (-5, 5), "room_c": (-20, 50), "bath_c": (-20, 60), "gas_ceiling_ppm": (1000, 1e6),
}  # fmt: skip


@dataclass(frozen=True)
class Recipe:
    """One simulated run. The lamp goes on at minute 0, when the record starts, or `warmed_min` before; the control gets air when the
    treated vessel gets its gas.

    What a learner chooses. gas: what is led into the treated vessel, 'CO2', 'argon' or 'air' (an air run). gas_at_min: when.
    watch_min: how long the record goes on after that. warmed_min: how long lamp or water had been at work when it began. filling:
    'mixing' with the air there, or lifting it out from 'below'. stirred: a fan in both vessels. shaded: foil over both
    thermometers. filtered: a tank of water before the lamp. covered: film over both mouths once the gas is in, or over the
    'treated' one alone. swapped: the treated vessel stands right instead of left. dark: no lamp; both stand in warm water.
    volume_l, depth_cm, mouth_cm: the vessels inside. step_s: time between readings. display_c: smallest step of the display in °C
    (0: none). room: log the room's temperature. gas_ceiling_ppm: top end of a CO2 probe in the treated vessel (None: no probe).
    seed: which chance.

    What stays hidden until `reveal`. gas_l: litres of gas led in; fizz_s: how soon it dies away. lamp: its strength against the
    usual, lamp_k: how hot it glows (K). card_w, wall_w, light_w: watts that the dark card gives to the gas, that the wall takes up,
    that pass through the gas, in a 1.5 L vessel. probe_k: by how much the lamp keeps a thermometer above the air (K). thick: heat
    capacity of the wall against the usual. tile_j_per_k: that of a tile inside, as warm as the gas. exchange: what changes places
    through the mouth against the formula. draught_ml_s: what moving room air takes out of it. layered: how much of its heat a gas
    in layers still carries to the wall. gas_colder_k: by how much the gas comes in colder than the control's air (K). unequal: by
    what part the left vessel gets more of the lamp. nudge: the same, from the moment the gas goes in. offset_c: what the treated
    thermometer reads too high. drift_c_per_min: how that grows. noise_c, correlation_s: standard deviation and memory of each
    thermometer's own wander. shared_c: standard deviation of the wander that both share (memory 3 min). room_c, bath_c: room and
    warm water in °C.
    """

    gas: str = "CO2"
    gas_at_min: float = 11.0
    watch_min: float = 10.5
    warmed_min: float = 0.0
    filling: str = "mixing"
    stirred: bool = False
    shaded: bool = False
    filtered: bool = False
    covered: bool | str = False
    swapped: bool = False
    dark: bool = False
    volume_l: float = 1.5
    depth_cm: float = 19.0
    mouth_cm: float = 6.5
    step_s: float = 2.0
    display_c: float = 0.01
    room: bool = False
    gas_ceiling_ppm: float | None = None
    seed: int = 1
    gas_l: float = 1.5
    fizz_s: float = 30.0
    lamp: float = 1.0
    lamp_k: float = 2700.0
    card_w: float = 0.1
    wall_w: float = 4.0
    light_w: float = 1.05
    probe_k: float = 1.3
    thick: float = 1.0
    tile_j_per_k: float = 0.0
    exchange: float = 1.0
    draught_ml_s: float = 0.0
    layered: float = 1.0
    gas_colder_k: float = 1.0
    unequal: float = 0.0
    nudge: float = 0.0
    offset_c: float = 0.0
    drift_c_per_min: float = 0.0
    noise_c: float = 0.014
    correlation_s: float = 10.0
    shared_c: float = 0.03
    room_c: float = 21.0
    bath_c: float = 36.0

    def __post_init__(self):
        if str(self.gas).lower() not in GASES:
            raise Fault(f"The bench has no gas {self.gas!r}. It has {listed(GASES.values())}.")
        object.__setattr__(self, "gas", GASES[self.gas.lower()])
        for name in SWITCHES:
            if not isinstance(getattr(self, name), bool):
                raise Fault(f"{name} is a switch: True or False. It was given {getattr(self, name)!r}.")
        for name, values in NAMED.items():
            if not any(getattr(self, name) is value or getattr(self, name) == value != 1 for value in values):
                raise Fault(f"{name} can be {listed(map(repr, values), 'or')}. It was given {getattr(self, name)!r}.")
        for name, limits in LIMITS.items():
            if getattr(self, name) is not None or name != "gas_ceiling_ppm":
                self._refuse_unfit(name, *limits)

    @property
    def times_s(self):
        """Seconds at which the bench takes a reading, from 0 to the record's end."""
        return self.step_s * np.arange(int(60 * (self.gas_at_min + self.watch_min) / self.step_s + 1e-6) + 1)

    def _refuse_unfit(self, name, lowest, highest):
        value = getattr(self, name)
        if np.ndim(value) or name == "seed" and bounded(value, name, lowest, highest) % 1:
            raise Fault(f"{name} must be one {'whole ' if name == 'seed' else ''}number. This was given: {value!r}.")
        bounded(value, name, lowest, highest)


def recipe_with(changes):
    """The class's usual recipe with some `changes` (a dict by name); a Fault names a switch that the bench does not have."""
    known = [each.name for each in fields(Recipe)]
    strange = [name for name in changes if name not in known]
    if strange:
        chosen = known[: known.index("seed") + 1]
        raise Fault(f"The bench has no switch {strange[0]!r}. It has {listed(chosen)}; kit.bench.recipe.Recipe lists the hidden ones.")
    return Recipe(**{**class_recipe(), **changes})


def class_recipe():
    """What the class's settings say of vessel, lamp and timing, by the names of `Recipe`."""
    said = class_settings().said
    recipe = {name: said[name] for name in ("volume_l", "depth_cm", "mouth_cm", "gas_at_min") if name in said}
    recipe |= {"lamp": said["taken_up_w"] / USUAL_LAMP_W} if "taken_up_w" in said else {}
    recipe |= {"lamp_k": LAMP_K[said["kind"]]} if "kind" in said else {}
    return recipe | ({"watch_min": said["read_after_min"] + AFTER_READING_MIN} if "read_after_min" in said else {})
