"""The bundled class of the concept check: made up, by the recipe below. `renew()` writes `invented.csv` anew."""

import numpy as np

from kit.analysis.concepts.checking import INVENTED_SHEETS
from kit.coursework import AFTER, BEFORE, ConceptSheet, LEFT_OUT, write_concept_sheets

SEED, LEARNERS = 17, 27
KEY = "bcdbdacb"
SHARES = {BEFORE: (0.40, 0.55, 0.45, 0.40, 0.20, 0.15, 0.50, 0.30), AFTER: (0.70, 0.80, 0.75, 0.65, 0.50, 0.40, 0.65, 0.60)}  # right, a question each
PULL = "cabcbbac"  # the idea that six of ten misses choose
ABSENT = {BEFORE: (11,), AFTER: (4, 19)}  # learners who were ill that day
SLIPS = {(BEFORE, 7, 5): LEFT_OUT, (AFTER, 2, 7): LEFT_OUT}


def invented_sheets():
    """The `ConceptSheet`s of a class that never was: each learner is somewhat better or worse than the shares at all questions."""
    chance = np.random.default_rng(SEED)
    lean = chance.normal(0, 0.12, LEARNERS)
    codes = [f"{chance.choice(list('abdeghklmnrst'))}{chance.choice(list('aeiou'))}{day:02}" for day in chance.permutation(31)[:LEARNERS] + 1]
    sheets = []
    for when, shares in SHARES.items():
        for learner, code in enumerate(codes):
            letters = [_letter(chance, share + lean[learner], place) for place, share in enumerate(shares)]
            letters = [SLIPS.get((when, learner, place), letter) for place, letter in enumerate(letters)]
            sheets += [ConceptSheet(when, code, "".join(letters))] if learner not in ABSENT[when] else []
    return tuple(sheets)


def _letter(chance, share, place):
    if chance.random() < share:
        return KEY[place]
    others = [letter for letter in "abcd" if letter not in (KEY[place], PULL[place])]
    return PULL[place] if chance.random() < 0.6 else str(chance.choice(others))


def renew():
    """Write the invented class's file anew."""
    write_concept_sheets(INVENTED_SHEETS, invented_sheets())
