"""Which run would tell rival causes apart: the one for which they predict different results."""

from dataclasses import dataclass

from kit.analysis.causes.predictions import CausePrediction, prediction
from kit.analysis.causes.rivals import BY_LETTER, RUNS, known_letters
from kit.faults import Fault
from kit.words import account, listed, plain, table_html

MEASURABLE = 0.1  # of the gas run's effect: what 0.1 °C, a good range of one run, is of 1 °C


@dataclass(frozen=True)
class SeparatingRuns:
    """Kinds of run that tell these causes (letters) apart, the sharpest first, with what each cause predicts for every kind."""

    letters: tuple
    kinds: tuple
    predictions: tuple

    def __iter__(self):
        return iter(self.kinds)

    def of(self, letter, kind):
        """The `CausePrediction` of one cause for one kind of run."""
        return next(each for each in self.predictions if (each.letter, each.kind) == (letter, kind))

    def __str__(self):
        rivals = listed(str(BY_LETTER[letter]) for letter in self.letters)
        if not self.kinds:
            return f"No run that the model knows tells {rivals} apart."
        return f"To tell {rivals} apart, best first: {listed(RUNS[kind] for kind in self.kinds[:3])}."

    def explain(self):
        """What each cause predicts for each of these runs, in words."""
        return account(self, *(f"{RUNS[kind]}: {self._told(kind)}." for kind in self.kinds))

    def _told(self, kind):
        return ", ".join(f"{letter} {self.of(letter, kind).word}" for letter in self.letters)

    def _repr_html_(self):
        return table_html([(RUNS[kind], self._told(kind)) for kind in self.kinds], str(self))

    def to_dict(self):
        return plain(self)


def runs_that_separate(causes, *, one=None):
    """`SeparatingRuns` of two or more causes, by letter: `runs_that_separate("md")`, or a list of letters. `one`: only this from each other.

    Two causes are told apart where the whole range of one's predicted ratio (to its effect in the gas run, over plausible benches) lies
    outside the other's by a tenth of that effect or more, which a class can measure; the wider the gap, the sharper. A Fault for letters
    that no cause has, for fewer than two, and for a `one` that is none of them.
    """
    letters = known_letters(list(causes))
    if one is not None and one not in letters:
        raise Fault(f"{one!r} is none of the causes named: {listed(letters)}.")
    if len(letters) < 2:
        raise Fault("Name two causes or more, so that there is something to tell apart: runs_that_separate('md').")
    kinds = [kind for kind in RUNS if kind != "gas"]
    predictions = tuple(prediction(letter, kind) for letter in letters for kind in kinds)
    gaps = {kind: [_gap(*pair) for pair in _pairs([each for each in predictions if each.kind == kind], one)] for kind in kinds}
    sharp = {kind: (sum(gap >= MEASURABLE for gap in found), sum(max(min(gap, 1), 0) for gap in found)) for kind, found in gaps.items()}
    telling = sorted((kind for kind in kinds if sharp[kind][0]), key=sharp.get, reverse=True)
    return SeparatingRuns(tuple(letters), tuple(telling), predictions)


def _pairs(told, one):
    pairs = [(each, other) for place, each in enumerate(told) for other in told[:place]]
    return [pair for pair in pairs if one is None or one in (pair[0].letter, pair[1].letter)]


def _gap(one: CausePrediction, other: CausePrediction):
    return max(one.low - other.high, other.low - one.high)
