"""How a learner sets the simulated bench up, and the run that comes of it."""

from dataclasses import dataclass
from functools import lru_cache

from kit.analysis.causes import RUNS
from kit.analysis.effect import paired_effect
from kit.bench import hidden_bench, simulate_run
from kit.coursework import kept_marks
from kit.records import Windows

BENCHES = range(1, 9)
READ_MIN, WAITED_MIN, RECORD_ON_MIN = 10, 45, 1.5
# What can be chosen, the usual first: name -> (question, {value: (words, switches of the bench)}).
CHOICES = {
    "gas": ("Into the treated vessel", {"CO2": ("CO2", {}), "argon": ("argon", {"gas": "argon"}), "air": ("plain air", {"gas": "air"})}),
    "mouths": ("Once the gas is in, both mouths", {"open": ("stay open", {}), "covered": ("get a film", {"covered": True})}),
    "probes": ("Both thermometers", {"lit": ("hang in the light", {}), "shaded": ("are shaded by foil", {"shaded": True})}),
    "lamp": (
        "The lamp",
        {
            "on": ("is on", {}),
            "filtered": ("stands behind water", {"filtered": True}),
            "dark": ("is away: the vessels stand in warm water", {"dark": True}),
        },
    ),
    "before": ("The gas comes after", {f"{each} min": (f"{each} min", {"gas_at_min": each}) for each in (11, 6, 20)}),
    "after": (
        "The reading follows after",
        {f"{each} min": (f"{each} min", {"watch_min": each + RECORD_ON_MIN}) for each in (READ_MIN, WAITED_MIN)},
    ),
}
USUAL = {name: next(iter(options)) for name, (_, options) in CHOICES.items()}
# What differs from the usual CO2 run, apart from the minutes before: the kind of run that the model has predictions for.
KIND_OF = {
    (): "gas", ("air",): "air", ("argon",): "argon", ("covered",): "covered", ("shaded",): "shaded",
    ("covered", "shaded"): "covered_shaded", ("filtered",): "filtered", ("dark",): "dark", (f"{WAITED_MIN} min",): "waited",
}  # fmt: skip


@dataclass(frozen=True)
class BenchRun:
    """A run on one of the simulated benches: the bench's number, its own, and the values that were chosen, in order of `CHOICES`."""

    bench: int
    number: int
    chosen: tuple

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
        """The run in words: 'run 2: CO2, stay open, …' or the kind's own."""
        told = RUNS[self.kind] if self.kind else ", ".join(words for words, _ in self._options)
        return f"run {self.number}: {told}"

    @property
    def run(self):
        """The `Run`: the same switches, the same readings."""
        return _recorded(self)

    @property
    def windows(self):
        """The learner's own windows; as planned, while there are none."""
        planned = (float(value.removesuffix(" min")) for value in self.chosen[-2:])
        return kept_marks(self.run) or Windows.of_perturbation(*planned)

    @property
    def effect(self):
        """The `Effect` in those windows."""
        return paired_effect(self.run, self.windows)

    @property
    def _options(self):
        return [options[value] for (_, options), value in zip(CHOICES.values(), self.chosen)]

    def switches(self):
        """What `simulate_run` needs."""
        chosen = {name: value for _, changes in self._options for name, value in changes.items()}
        return {**hidden_bench(self.bench), **chosen, "gas_ceiling_ppm": 1e6, "seed": 100 * self.bench + self.number}


@lru_cache(maxsize=32)
def _recorded(made):
    return simulate_run(**made.switches())


def mouth_cm(bench):
    """How wide this bench's mouths are (cm): a ruler would tell."""
    return hidden_bench(bench)["mouth_cm"]
