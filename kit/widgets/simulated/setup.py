"""How a learner sets the simulated bench up, and the run that comes of it."""

from dataclasses import dataclass
from functools import lru_cache

from kit.analysis.effect import paired_effect
from kit.bench import hidden_bench, simulate_run
from kit.coursework import marks_made_here
from kit.records import Windows

BENCHES = range(1, 9)
READ_MIN, WAITED_MIN, RECORD_ON_MIN = 10, 45, 1.5
FAN_ML_S, FAN_MOUTH_CM = 10.0, 7.0  # air at 0.6 m/s over a mouth of that width carries out so much (our estimate, no source)
# What can be chosen, the usual first: name -> (question, {value: (words, words in the run's name, switches of the bench)}). New ones go
# to the end: a run that was kept before has none of them.
CHOICES = {
    "gas": (
        "Into the treated vessel",
        {"CO2": ("CO2", "CO2", {}), "argon": ("argon", "argon", {"gas": "argon"}), "air": ("plain air", "air", {"gas": "air"})},
    ),
    "mouths": ("Once the gas is in, both mouths", {"open": ("stay open", "open", {}), "covered": ("get a film", "covered", {"covered": True})}),
    "probes": ("Both thermometers", {"lit": ("hang in the light", "", {}), "shaded": ("are shaded by foil", "shaded", {"shaded": True})}),
    "lamp": (
        "The lamp",
        {
            "on": ("is on", "lamp on", {}),
            "filtered": ("stands behind water", "lamp behind water", {"filtered": True}),
            "dark": ("is away: the vessels stand in warm water", "no lamp but warm water", {"dark": True}),
        },
    ),
    "before": (
        "The gas comes after",
        {f"{each} min": (f"{each} min", "" if each == 11 else f"gas at {each} min", {"gas_at_min": each}) for each in (11, 6, 20)},
    ),
    "after": (
        "The reading follows after",
        {f"{each} min": (f"{each} min", f"read after {each} min", {"watch_min": each + RECORD_ON_MIN}) for each in (READ_MIN, WAITED_MIN)},
    ),
    "air": (
        "The air",
        {
            "still": ("is still", "", {}),
            "fan": ("is blown over both mouths by a fan", "fan over the mouths", {"draught_ml_s": FAN_ML_S}),
            "stirred": ("is stirred by a small fan in each vessel", "fan in each vessel", {"stirred": True}),
        },
    ),
    "places": (
        "The treated vessel stands",
        {"usual": ("left, as usual", "", {}), "swapped": ("right: the places are changed", "places changed", {"swapped": True})},
    ),
}
IN_WORDS = ("gas", "mouths", "lamp", "probes", "air", "places", "before", "after")  # their order in the form and in a run's name
USUAL = {name: next(iter(options)) for name, (_, options) in CHOICES.items()}
# What differs from the usual CO2 run, apart from the minutes before: the kind of run that the model has predictions for.
KIND_OF = {
    (): "gas", ("air",): "air", ("argon",): "argon", ("covered",): "covered", ("shaded",): "shaded",
    ("covered", "shaded"): "covered_shaded", ("filtered",): "filtered", ("dark",): "dark", (f"{WAITED_MIN} min",): "waited",
    ("stirred",): "stirred", ("swapped",): "swapped",
}  # fmt: skip


@dataclass(frozen=True)
class BenchRun:
    """A run on one of the simulated benches: the bench's number, its own, and the values that were chosen, in order of `CHOICES`."""

    bench: int
    number: int
    chosen: tuple

    def __post_init__(self):
        object.__setattr__(self, "chosen", (*self.chosen, *list(USUAL.values())[len(self.chosen) :]))

    @property
    def name(self):
        """'bench-4-run-2': also the name of its file."""
        return f"bench-{self.bench}-run-{self.number}"

    @property
    def kind(self):
        """The kind of run by the names of `weigh_causes`; None for one of which the model predicts nothing."""
        differs = (value for name, value in zip(CHOICES, self.chosen) if value != USUAL[name] and name != "before")
        return KIND_OF.get(tuple(differs))

    @property
    def words(self):
        """The run in words: 'run 2: CO2, covered, lamp on, read after 10 min'."""
        named = (CHOICES[name][1][self._value(name)][1] for name in IN_WORDS)
        return f"run {self.number}: {', '.join(filter(None, named))}"

    @property
    def run(self):
        """The `Run`: the same switches, the same readings."""
        return _recorded(self)

    @property
    def windows(self):
        """The learner's own windows; as planned, while there are none."""
        planned = (float(self._value(name).removesuffix(" min")) for name in ("before", "after"))
        return marks_made_here(self.run) or Windows.of_perturbation(*planned)

    @property
    def effect(self):
        """The `Effect` in those windows."""
        return paired_effect(self.run, self.windows)

    def _value(self, name):
        return self.chosen[list(CHOICES).index(name)]

    def switches(self):
        """What `simulate_run` needs."""
        changes = (CHOICES[name][1][self._value(name)][2] for name in CHOICES)
        chosen = {name: value for each in changes for name, value in each.items()}
        if "draught_ml_s" in chosen:
            chosen["draught_ml_s"] *= (mouth_cm(self.bench) / FAN_MOUTH_CM) ** 2
        return {**hidden_bench(self.bench), **chosen, "gas_ceiling_ppm": 1e6, "seed": 100 * self.bench + self.number}


@lru_cache(maxsize=32)
def _recorded(made):
    return simulate_run(**made.switches())


def mouth_cm(bench):
    """How wide this bench's mouths are (cm): a ruler would tell."""
    return hidden_bench(bench)["mouth_cm"]
