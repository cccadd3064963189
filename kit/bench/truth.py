"""The truth behind a simulated run: how much warmer the treated vessel really got, and what made it so."""

from dataclasses import dataclass

import numpy as np

from kit.analysis.causes import BY_LETTER
from kit.bench.model import BENCH_LETTERS, GAS_LETTERS, effects_at, holds_until_min, temperatures
from kit.estimate import rounded
from kit.statistics import within
from kit.units import difference
from kit.words import account, plain, table_html

WORDS = {letter: rival.name for letter, rival in BY_LETTER.items()} | {
    "h": "heat capacity of the gas",
    "f": "lamp touched when the gas went in",
    "s": "left and right not lit alike",
    "t": "thermometer that drifts",
    "k": "film over the treated vessel alone",
}
AFTER_MIN = 10
WHY_UNLIKE = (
    "Alone and taken out differ where causes need each other: what warms the gas counts for more once the mouth is quiet, and the mouth "
    "for more the warmer the gas."
)


@dataclass(frozen=True)
class CauseTruth:
    """One cause on the bench, in °C: what it makes `alone_c`, and what is missing when it alone is taken out (`taken_out_c`)."""

    letter: str
    name: str
    alone_c: float
    taken_out_c: float

    def __str__(self):
        return f"{self.name} ({self.letter}): {difference(self.alone_c, 2)} alone, {difference(self.taken_out_c, 2)} less without it."


@dataclass(frozen=True)
class Truth:
    """What the simulated bench did, in °C at `after_min` minutes after the gas.

    `warming_c`: extra warming of the treated vessel that the gas made, by whatever cause. `bench_c`: what the bench itself added to
    the difference in that time (lamp touched, sides unlike, drift, film over one alone). `causes`: a `CauseTruth` each.
    `holds_min`: minutes after the gas for which it outweighed the room's air (None: to the record's end). `noise_c`,
    `correlation_s`: standard deviation and memory of the difference's noise.
    """

    warming_c: float
    bench_c: float
    causes: tuple
    holds_min: float | None
    noise_c: float
    correlation_s: float
    after_min: float
    recipe: object

    def cause(self, letter):
        """The `CauseTruth` with this letter."""
        return next(each for each in self.causes if each.letter == letter)

    def effect_c(self, windows):
        """What `paired_effect` would find in these windows without noise and display: in °C, gas and bench together."""
        edges = windows.seconds
        times_s = self.recipe.times_s
        difference = np.subtract(*temperatures(self.recipe, times_s))
        baseline, response = (difference[slice(*within(times_s, *pair))] for pair in (edges[:2], edges[-2:]))
        return float(response.mean() - baseline.mean())

    def __str__(self):
        return (
            f"In truth the gas made the treated vessel {difference(self.warming_c, 2)} warmer after {self.after_min:g} min; "
            f"the bench itself added {difference(self.bench_c, 2)}."
        )

    @property
    def _held(self):
        return "to the end of the record" if self.holds_min is None else f"for {rounded(self.holds_min, 0)} min"

    def explain(self):
        """The causes one by one, and why they don't simply add up."""
        return account(self, *self.causes, WHY_UNLIKE, f"The gas outweighed the room's air {self._held}.")

    def _repr_html_(self):
        rows = [(f"{each.name} ({each.letter})", str(each).partition(": ")[2]) for each in self.causes]
        noise = f"{difference(self.noise_c, 3)}, remembered for {self.correlation_s:g} s"
        rows += [("why the two differ", WHY_UNLIKE), ("gas outweighed the room's air", self._held), ("noise of the difference", noise)]
        return table_html(rows, str(self))

    def to_dict(self):
        return plain(self)


def truth_of(recipe):
    """The `Truth` of a recipe, read 10 min after the gas, or at the record's end if that comes first."""
    after_min = min(AFTER_MIN, recipe.watch_min)
    moments_s = 60 * np.array([recipe.gas_at_min, recipe.gas_at_min + after_min])
    sets = [GAS_LETTERS, "", *GAS_LETTERS, *(GAS_LETTERS.replace(letter, "") for letter in GAS_LETTERS)]
    gas, bare, *others = _grown(recipe, moments_s, sets, "")
    alone, without = others[: len(GAS_LETTERS)], others[len(GAS_LETTERS) :]
    causes = [CauseTruth(letter, WORDS[letter], one - bare, gas - rest) for letter, one, rest in zip(GAS_LETTERS, alone, without)]
    whole = _grown(recipe, moments_s, sets[:1])[0]
    for letter in BENCH_LETTERS:
        lone = _grown(recipe, moments_s, [""], letter)[0] - bare
        rest = _grown(recipe, moments_s, sets[:1], BENCH_LETTERS.replace(letter, ""))[0]
        causes.append(CauseTruth(letter, WORDS[letter], lone, whole - rest))
    return Truth(
        warming_c=gas,
        bench_c=whole - gas,
        causes=tuple(causes),
        holds_min=holds_until_min(recipe),
        noise_c=2**0.5 * recipe.noise_c,
        correlation_s=recipe.correlation_s,
        after_min=after_min,
        recipe=recipe,
    )


def _grown(recipe, moments_s, sets, bench=BENCH_LETTERS):
    """By how much treated - control grows between two moments with each of these sets of causes at work, in °C."""
    before, after = effects_at(recipe, moments_s, sets, bench)
    return [float(each) for each in after - before]
