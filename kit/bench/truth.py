"""The truth behind a simulated run: how much warmer the treated vessel really got, and what made it so."""

from dataclasses import dataclass

import numpy as np

from kit.bench.model import BENCH_CAUSES, CAUSES, GAS_CAUSES, settled, temperatures
from kit.estimate import rounded
from kit.statistics import within
from kit.words import account, plain, table_html

WORDS = {
    "wall infrared": "thermal infrared exchanged with the walls",
    "layer": "gas that passes on less heat than air",
    "probe": "thermometer in the beam, worse cooled by the gas",
    "lamp light": "lamp light taken up by the gas",
    "cold gas": "gas that came in cold",
    "heat capacity": "heat capacity of the gas",
    "nudge": "lamp touched when the gas went in",
    "unequal": "left and right not lit alike",
    "drift": "thermometer that drifts",
}
AFTER_MIN = 10


@dataclass(frozen=True)
class Truth:
    """What the simulated bench did, in °C at `after_min` minutes after the gas.

    `warming_c`: extra warming of the treated vessel that the gas made, by whatever cause. `bench_c`: what the bench itself added
    to the difference in that time (lamp touched, sides unlike, drift). `steady_c`: what the gas would reach if it stayed for hours.
    `causes`: (cause, °C) pairs that add up to both; each is what it adds to those before it, so another order would share them
    out a little differently. `noise_c`, `correlation_s`: standard deviation and memory of the difference's noise.
    """

    warming_c: float
    bench_c: float
    steady_c: float
    causes: tuple
    noise_c: float
    correlation_s: float
    after_min: float
    recipe: object

    def effect_c(self, windows):
        """What `paired_effect` would find in these windows without noise and display: in °C, gas and bench together."""
        edges = windows.seconds
        times_s = self.recipe.times_s
        difference = np.subtract(*temperatures(self.recipe, times_s))
        baseline, response = (difference[slice(*within(times_s, *pair))] for pair in (edges[:2], edges[-2:]))
        return float(response.mean() - baseline.mean())

    def __str__(self):
        return (
            f"In truth the gas made the treated vessel {rounded(self.warming_c, 2)} °C warmer after {self.after_min:g} min; "
            f"the bench itself added {rounded(self.bench_c, 2)} °C."
        )

    def explain(self):
        """The causes one by one."""
        return account(self, *(f"{WORDS[cause]}: {rounded(value, 2)} °C." for cause, value in self.causes))

    def _repr_html_(self):
        rows = [(WORDS[cause], f"{rounded(value, 2)} °C") for cause, value in self.causes]
        noise = f"{rounded(self.noise_c, 3)} °C, remembered for {self.correlation_s:g} s"
        rows += [("would reach in the end", f"{rounded(self.steady_c, 2)} °C"), ("noise of the difference", noise)]
        return table_html(rows, str(self))

    def to_dict(self):
        return plain(self)


def truth_of(recipe):
    """The `Truth` of a recipe, read 10 min after the gas, or at the record's end if that comes first."""
    after_min = min(AFTER_MIN, recipe.watch_min)
    moments_s = 60 * np.array([recipe.gas_at_min, recipe.gas_at_min + after_min])
    sums = [_grown(recipe, moments_s, CAUSES[:count]) for count in range(len(CAUSES) + 1)]
    causes = tuple(zip(CAUSES, np.diff(sums).tolist()))
    made = dict(causes)
    return Truth(
        warming_c=sum(made[cause] for cause in GAS_CAUSES),
        bench_c=sum(made[cause] for cause in BENCH_CAUSES),
        steady_c=settled(recipe, recipe.share) - settled(recipe, 0),
        causes=causes,
        noise_c=2**0.5 * recipe.noise_c,
        correlation_s=recipe.correlation_s,
        after_min=after_min,
        recipe=recipe,
    )


def _grown(recipe, moments_s, causes):
    """By how much treated - control grows between two moments with these causes at work, in °C."""
    before, after = np.subtract(*temperatures(recipe, moments_s, causes))
    return after - before
