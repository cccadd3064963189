"""What each cause predicts for each kind of run: computed by the model for many plausible benches, kept in `predictions.csv`.

`python3 -m kit check --predictions` writes the record anew; a test makes a part of it again.
"""

from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path

import numpy as np

from kit.analysis.causes.bounds import LETTERS, LIMITS_C
from kit.analysis.causes.plausible import CAUSE_LETTERS, KINDS, Plausible, drawn, effects_by_cause
from kit.faults import Fault

RECORD = Path(__file__).with_name("predictions.csv")
BENCHES, SEED, FEWER = 320, 11, 48
HEADER = ["kind", "bench", "share", *LETTERS]
# What a share y of gas does, against pure gas: y to this power. The mouth's part, handling and cold gas don't go by the share.
SHARE_POWER = {"d": 1.0, "c": 1.0, "a": 0.25, "b": 0.33}
LEAST_SHARE = 0.05  # where less is left the gas no longer rules what happens
ALIKE = 1 / 3  # of the benches: those whose gas at reading is most like what was measured
SMALL_C = (0.005, 0.01, 0.02, 0.03, 0.05, 0.08)  # a size under one of these is left out of a ratio, and allowed for as a remainder
READ_WHILE, FEWEST = 0.1, 8  # share at reading: where less is left, air comes in again and the run is read too late
PLAIN = 0.15  # of its largest size: under that a ratio says nothing
SAME, LESS, GONE = (0.75, 1.33), 0.75, 0.2  # of the size in the gas run


@dataclass(frozen=True, eq=False)
class PredictionTable:
    """What each cause makes on each bench (°C): kind -> (causes, benches), in the order of `LETTERS`; m by itself, each other once the
    mouth's part is there. kind -> (benches,): `shares` of gas at reading, and `whole` effects (°C), left out where they were not kept."""

    made: dict
    shares: dict
    whole: dict | None = None


@dataclass(frozen=True)
class CausePrediction:
    """A cause's effect in a kind of run over its effect in the gas run: lowest and highest, and the word for it."""

    letter: str
    kind: str
    low: float
    high: float

    @property
    def word(self):
        """more, same, less, gone, changes sign or can't say, by the stated limits (`SAME`, `LESS`, `GONE`)."""
        if -GONE <= self.low and self.high <= GONE:
            return "gone"
        if self.high <= -GONE:
            return "changes sign"
        if self.low >= SAME[0] and self.high <= SAME[1]:
            return "same"
        if self.low >= 1:
            return "more"
        return "less" if self.low >= -GONE and self.high <= LESS else "can't say"


def computed_table(ranges=None, benches=BENCHES, seed=SEED, kinds=tuple(KINDS)):
    """The `PredictionTable` of so many benches drawn from `Plausible` ranges, by the model of `kit.physics`: those read while the gas is in
    (`READ_WHILE`). A Fault where hardly any bench is left."""
    found = {kind: _found(ranges or Plausible(), benches, seed, kind) for kind in kinds}
    places = [CAUSE_LETTERS.index(letter) for letter in LETTERS]
    made, whole, shares = ({kind: each[part] for kind, each in found.items()} for part in range(3))
    return PredictionTable({kind: each[places] for kind, each in made.items()}, shares, whole)


@lru_cache(maxsize=64)
def _found(ranges, benches, seed, kind):
    """`effects_by_cause` of the benches drawn: kept, as whoever weighs one more run asks for all earlier ones again."""
    return effects_by_cause(_benches(ranges, benches, seed), kind)


@lru_cache(maxsize=8)
def _benches(ranges, benches, seed):
    return held(drawn(ranges, 2 * benches, seed), benches)


def held(bench, count):
    """At most `count` of these benches: those whose gas, CO2 or argon, is still there at reading."""
    left = np.minimum(*(effects_by_cause(bench, kind)[2] for kind in ("gas", "argon")))
    kept = np.flatnonzero(left >= READ_WHILE)[:count]
    if len(kept) < FEWEST:
        raise Fault("On a bench like this the gas is gone before the reading. Read sooner, or take a deeper vessel or a narrower mouth.")
    return {name: values[kept] for name, values in bench.items()}


def write_record(path=RECORD):
    """Write the record: one row for each kind of run and bench. The name of the file."""
    table = computed_table()
    rows = [",".join(HEADER)]
    for kind, made in table.made.items():
        for bench, values in enumerate(np.vstack([table.shares[kind], made]).T):
            rows.append(f"{kind},{bench}," + ",".join(f"{value:.4f}" for value in values + 0.0))
    path.write_text("\n".join(rows).replace("-0.0000", "0.0000") + "\n", encoding="utf-8")
    return path.name


@cache
def record():
    """The `PredictionTable` that the kit carries."""
    with RECORD.open(encoding="utf-8") as lines:
        next(lines)
        rows = [line.rstrip().split(",") for line in lines]
    values = {kind: np.array([row[2:] for row in rows if row[0] == kind], float).T for kind in KINDS}
    return PredictionTable({kind: each[1:] for kind, each in values.items()}, {kind: each[0] for kind, each in values.items()})


def prediction(letter, kind):
    """The `CausePrediction` of a cause for a kind of run, over all benches of the record on which the cause has any size."""
    size, made = (record().made[each][LETTERS.index(letter)] for each in ("gas", kind))
    plain_sized = np.abs(size) >= PLAIN * np.abs(size).max()
    ratios = made[plain_sized] / size[plain_sized]
    return CausePrediction(letter, kind, float(ratios.min()), float(ratios.max()))


def size_limits(kind="gas", table=None):
    """letter -> (least, most): °C that a cause can make in a run of this kind: `LIMITS_C`; with a `table` of a class's own bench no
    more than half as much again as on any of its benches. Argon takes up no infrared; in air only the disturbance is left."""
    none = {"argon": "ab", "air": "mdcabe"}.get(kind, "")
    limits = {letter: (0.0, 0.0) if letter in none else tuple(map(float, LIMITS_C[letter])) for letter in LETTERS}
    if table is None:
        return limits
    ends = {letter: (1.5 * min(made.min(), 0), 1.5 * max(made.max(), 0)) for letter, made in zip(LETTERS, table.made[kind])}
    own = {letter: (max(low, limits[letter][0]), min(high, limits[letter][1])) for letter, (low, high) in ends.items()}
    return own | {"f": limits["f"]}


def ratio_ranges(table, kind, shares=None):
    """(low, high, slack) of every cause: its effect in this kind of run is low to high times its size, give or take slack (°C).

    `shares`: kind -> share of gas at reading, where it was measured. Then only the benches count whose gas was most like that in the gas
    run and in this one, and what a cause owes to the share is taken from the measured one.
    """
    shares = {each: max(share, LEAST_SHARE) for each, share in (shares or {}).items() if each in ("gas", kind)}
    chosen = _alike(table, shares)
    known = {kind, "gas"} <= set(shares)
    found = [_ratio(table, kind, place, chosen, known and letter in SHARE_POWER) for place, letter in enumerate(LETTERS)]
    measured = [_by_share(letter, shares[kind] / shares["gas"]) if known else 1.0 for letter in LETTERS]
    low, high, slack = np.array(found).T
    return low * measured, high * measured, slack


def _by_share(letter, quotient):
    return quotient ** SHARE_POWER.get(letter, 0.0)


def _alike(table, shares):
    """Which benches have most nearly the measured shares: places, a third of all."""
    count = table.shares["gas"].size
    if not shares:
        return np.arange(count)
    apart = sum(np.abs(np.log(np.maximum(table.shares[kind], LEAST_SHARE) / share)) for kind, share in shares.items())
    return np.argsort(apart, kind="stable")[: max(int(ALIKE * count), min(count, 20))]


def _ratio(table, kind, place, chosen, per_share):
    """(low, high, slack) of one cause: of all ways to leave small sizes out, that with the least room to spare."""
    size, made = (table.made[each][place, chosen] for each in ("gas", kind))
    scale = 1.0
    if per_share:
        left, before = (np.maximum(table.shares[each][chosen], LEAST_SHARE) for each in (kind, "gas"))
        scale = _by_share(LETTERS[place], left / before)
    ways = [_range(size, made, scale, np.abs(size) > small) for small in SMALL_C]
    return min(ways, key=lambda way: way[2] + (way[1] - way[0]) * np.abs(size).mean())


def _range(size, made, scale, large):
    if not large.any():
        return 0.0, 0.0, float(np.abs(made).max())
    ratios = (made / scale)[large] / size[large]
    low, high = ratios.min(), ratios.max()
    ends = np.sort([low * size * scale, high * size * scale], axis=0)
    return float(low), float(high), float(np.maximum(np.maximum(made - ends[1], ends[0] - made).max(), 0))
