"""When the gain of a class can be told, and the sentences on it."""

from math import isfinite

from kit.coursework import AFTER, BEFORE
from kit.estimate import Estimate, rounded
from kit.faults import Caution
from kit.words import account, counted, some

FEWEST, FEWEST_MISSED = 8, 3
"""Learners, and questions missed before by all together. In simulated classes the range held the truth in 94 to 99 of 100 from there on, also
where nearly all was right before; with fewer of either it may hold it less often than it says (`tests/statistics/test_gain.py`)."""
CANNOT_TELL = "cannot tell"
NOT_COUNTED = "not counted"
ALONE = "Without a class that was not taught so, g also holds practice with the sheet and everything else of those weeks."
UNTESTED = "The eight questions are our own and untested. Marks like 'low' and 'high', made for other tests, say little here."
HOW = (
    "g is the share of what the class lacked before that it found afterwards: g = (Y - X) / (100 - X), with the class means X before and Y after in % "
    "(Hake 1998, as PhysPort's page on normalized gain cites it)."
)
PER_LEARNER = (
    "It is taken from the class means: the mean of each learner's own g is biased where scores are rough (Navarrete and others 2024, abstract read). "
    "For the range: 1 - g is B / A, what was missed after over what was missed before. Of each learner's own b and a, r = b/B - a/A; u = sd(r) / √N; "
    "the range is 1 - (B/A)·exp(±t·u). It is longer towards less gain."
)
CHANCE = "The range speaks of chance: what other learners like these would have done."


def judged(gain, scores, items):
    """(gain, verdict, reason) from the scores (learners, 2) in %; the gain is not determined where too few learners or misses stand behind it."""
    learners = len(scores)
    missed = round(float((100 - scores[:, 0]).sum()) * items / 100)
    nothing = Estimate.undetermined("", gain.level)
    if learners < FEWEST:
        return nothing, CANNOT_TELL, f"{counted(learners, 'learner')} took both sheets. A gain needs {FEWEST} or more: read question by question."
    if missed < FEWEST_MISSED:
        why = f"before, all together missed {counted(missed, 'answer')} only. A gain needs {FEWEST_MISSED} or more"
        return nothing, CANNOT_TELL, f"{why}: these questions were too easy for this class."
    if (scores[:, 1] == 100).all():
        return nothing, *_of_all_right(int((scores[:, 0] < 100).sum()), missed, gain.level)
    if not isfinite(gain.low):
        return nothing, CANNOT_TELL, "all learners changed alike, so nothing shows how much is chance."
    if gain.holds(0):
        return gain, CANNOT_TELL, f"g is {gain.text}. The range holds 0: this may be chance."
    way = "more was right after than before" if gain.low > 0 else "less was right after than before"
    return gain, ("gained" if gain.low > 0 else "lost"), f"{way}. g is {gain.text}, from {counted(learners, 'learner')}."


def _of_all_right(better, missed, level):
    """(verdict, reason) where nothing was missed afterwards: by the sign test, `better` learners out of as many who changed."""
    why = f"before, all together missed {counted(missed, 'answer')}; after, none. How large g is can't be told: by then these questions were too easy."
    return ("gained" if 2 * 0.5**better <= 1 - level else CANNOT_TELL), why


def cautions_of(gain, pairs, learners):
    """What to keep in mind about it."""
    gone = sum(map(len, pairs.only.values()))
    share_gone = gone / (learners + gone) if gone else 0
    missing = f"{counted(gone, 'learner')} of {learners + gone} took one sheet only. If they differ from the others, so would g."
    return (
        *([Caution("missing", missing)] if share_gone > 0.1 else []),
        *([Caution("alone", ALONE)] if isfinite(gain.low) else []),
        Caution("untested", UNTESTED),
    )  # fmt: skip


def people(check):
    """Who took one sheet only, by code: 'before only: k07, m12; after only: nobody'."""
    return "; ".join(f"{when} only: {some(check.only[when]) if check.only[when] else 'nobody'}" for when in (BEFORE, AFTER))


def share(percent):
    """A mean score in words: '41 %'."""
    return f"{rounded(percent, 0)} %"


def explained(check):
    """The account of a `ConceptCheck`, with its own numbers."""
    means = f"Here X is {share(check.before)} and Y is {share(check.after)}." if check.learners else ""
    result = f"g is {check.gain.text}." if isfinite(check.gain.low) else ""
    return account(
        f"{counted(check.learners, 'learner')} took both sheets. Missing: {people(check)}.",
        f"Read the questions first, one by one. {HOW} {means}".strip(),
        PER_LEARNER,
        f"{result} {CHANCE}".strip(),
        f"It is told from {FEWEST} learners on, where all together missed {FEWEST_MISSED} answers or more before.",
        *map(str, check.cautions),
    )
