"""How often the bounds of weighed causes hold the truth, and how often they name the cause that made most of an effect.

Benches with random truth inside the stated ranges, other ones than the record's; each run's effect is read with a standard error of
0.04 °C. The truth of a cause is what it made in the gas run: the mouth by itself, each other once the mouth's part is there.
"""

import numpy as np

from kit.analysis.causes import LETTERS, computed_table, weigh_causes
from kit.coverage.study import Figure, Row, Study, share
from kit.estimate import Estimate

RUNS, SEED, ERROR_C, MOST = 200, 2024, 0.04, 0.7
HELD, NAMED = 95.0, 80.0
FIVE = ("gas", "covered", "shaded", "covered_shaded", "argon", "air")
SETS = {
    "the gas run alone": (FIVE[:1], None),
    "covered, argon and air": (("gas", "covered", "argon", "air"), None),
    "covered, shaded, both, argon and air": (FIVE, NAMED),
    "the same, waited and dark": ((*FIVE, "waited", "dark"), NAMED),
}


def rows(runs=None):
    """A row for each set of runs."""
    table = computed_table(benches=runs or RUNS, seed=SEED)
    for name, (kinds, named) in SETS.items():
        yield row(name, kinds, named, table)


def row(name, kinds, named, table):
    """Holds: every bound of all seven causes at once. Named: of the benches where one cause made more than 70 %, where it is "needed"."""
    rng = np.random.default_rng(SEED)
    holds, found, width, against = [], [], [], 0
    for bench in range(table.shares["gas"].size):
        effects, shares = measured(table, kinds, bench, rng)
        weighed = weigh_causes(effects, shares=shares)
        against += bool(weighed.contradiction)
        truth = table.made["gas"][:, bench]
        holds.append(not weighed.contradiction and all(held(cause, size) for cause, size in zip(weighed.causes, truth)))
        main = int(np.argmax(truth))
        width.append(weighed.causes[0].most - weighed.causes[0].least)
        if truth[main] > MOST * table.whole["gas"][bench]:
            found.append(weighed.causes[main].word == "needed")
    figures = (
        share("holds %", np.array(holds), low=HELD),
        share("named %", np.array(found), **({"low": named} if named else {})),
        Figure("contradict %", 100 * against / len(holds)),
        Figure("width of m °C", float(np.mean(width)), places=2),
    )
    return Row(name, figures)


def measured(table, kinds, bench, rng):
    """(effects, shares) of one bench, as a class would have measured them."""
    effects, shares = {}, {}
    for kind in kinds:
        value = float(table.whole[kind][bench] + ERROR_C * rng.standard_normal())
        effects[kind] = Estimate.from_error(value, ERROR_C, 1.96)
        if kind not in ("argon", "air"):
            shares[kind] = float(table.shares[kind][bench])
    return effects, shares


def held(cause, size):
    """Do the bounds hold this size? A thousandth of a degree is nothing."""
    return cause.least - 1e-3 <= size <= cause.most + 1e-3


STUDIES = (
    Study("causes", f"Bounds of {len(LETTERS)} causes from several runs, on benches with random truth.", rows),
)  # fmt: skip
