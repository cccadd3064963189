"""The concept check of a class: which ideas were chosen before and after, and the gain with its range."""

from collections import Counter
from dataclasses import dataclass
from math import isfinite
from pathlib import Path

import numpy as np

from kit.analysis.concepts.pairing import LETTERS, Pairs
from kit.analysis.concepts.words import cautions_of, explained, judged, NOT_COUNTED, people, share
from kit.coursework import AFTER, BEFORE, CardQuestion, CONCEPTS, LEFT_OUT, read_concept_sheets, read_lesson
from kit.estimate import Estimate
from kit.statistics import class_gain
from kit.words import plain, table_html

INVENTED_SHEETS = Path(__file__).with_name("invented.csv")


@dataclass(frozen=True, eq=False)
class ItemCount:
    """One question, the `number`-th: how many of those who took both sheets chose each letter `before` and `after` (Counters, '.' for left
    out), and how many went from which letter to which (`moved`, a Counter of pairs)."""

    number: int
    question: CardQuestion
    before: Counter
    after: Counter
    moved: Counter

    @property
    def right(self):
        """The letter of the right choice."""
        return LETTERS[self.question.choices.index(self.question.right)]

    @property
    def asked(self):
        return sum(self.before.values())

    @property
    def rows(self):
        """(letter, choice, how many before, how many after, the idea it stands for) for each choice; a last row for those left out."""
        told = [
            (letter, choice.text, self.before[letter], self.after[letter], "right" if choice.right else choice.idea)
            for letter, choice in zip(LETTERS, self.question.choices)
        ]
        left_out = (LEFT_OUT, "left out", self.before[LEFT_OUT], self.after[LEFT_OUT], "")
        return [*told, *([left_out] if self.before[LEFT_OUT] or self.after[LEFT_OUT] else [])]

    @property
    def still(self):
        """(idea, how many) that most hold afterwards; None where nobody holds any."""
        ideas = Counter({choice.idea: self.after[letter] for letter, choice in zip(LETTERS, self.question.choices) if not choice.right})
        (idea, count), *_ = ideas.most_common(1)
        return (idea, count) if count else None

    def __str__(self):
        held = f" The idea most held now: {self.still[0]} ({self.still[1]})." if self.still else ""
        return f"Question {self.number}: {self.before[self.right]} of {self.asked} right before, {self.after[self.right]} after.{held}"


@dataclass(frozen=True, eq=False)
class ConceptCheck:
    """A class's concept check. `items`: an `ItemCount` a question, of the `learners` who took both sheets; `before` and `after`: their mean
    scores in %. `gain`: g, without a unit. `verdict`: 'gained', 'lost' or 'cannot tell', with its `reason`. `only`: codes that stand on one
    sheet alone, by when; `doubts`: what was not counted as it stands; `invented`: the bundled class, which nobody taught."""

    items: tuple
    learners: int
    before: float
    after: float
    gain: Estimate
    verdict: str
    reason: str
    only: dict
    doubts: tuple = ()
    invented: bool = False
    cautions: tuple = ()

    def explain(self):
        """How the gain was worked out, with this class's own numbers, and what it does not show."""
        return explained(self)

    def __str__(self):
        whose = "Invented class. " if self.invented else ""
        return f"{whose}{self.verdict.capitalize()}: {self.reason}"

    def _repr_html_(self):
        gain = [("gain g", self.gain.text)] if isfinite(self.gain.low) else []
        means = [("right before", share(self.before)), ("right after", share(self.after))] if self.learners else []
        rows = [("took both sheets", self.learners), *means, *gain, *((f"question {each.number}", each) for each in self.items)]
        told = [("missing", people(self)), *((NOT_COUNTED, each) for each in self.doubts), *(("mind", each) for each in self.cautions)]
        return table_html([*rows, *told], str(self))

    def to_dict(self):
        """What JSON can keep: counts, no codes."""
        items = [
            {"number": each.number, "key": each.question.key, "before": each.before, "after": each.after, "moved": _arrows(each)} for each in self.items
        ]
        told = {name: getattr(self, name) for name in ("learners", "before", "after", "gain", "verdict", "reason", "invented", "cautions")}
        return plain({**told, "items": items, "only": {when: len(codes) for when, codes in self.only.items()}, "sentence": str(self)})


def _arrows(item):
    return {f"{before} to {after}": count for (before, after), count in item.moved.items()}


def concept_check(source=None, *, level=0.95):
    """The `ConceptCheck` of a class's sheets: a CSV file (sheet,code,item_1, …), or `ConceptSheet`s. Without it: an invented class.

    Only learners with a sheet before and after count, paired by their codes; a question left out counts as not right. The gain is Hake's, from
    the class means (`kit.statistics.class_gain`). A Fault where the file holds no sheets.
    """
    lesson = read_lesson(CONCEPTS)
    path = INVENTED_SHEETS if source is None else source
    sheets = read_concept_sheets(path) if isinstance(path, (str, Path)) else tuple(path)
    questions = lesson.questions
    pairs = Pairs.of(sheets, [len(each.choices) for each in questions])
    items = tuple(_item(place, question, pairs) for place, question in enumerate(questions))
    scores = np.array([[_score(letters, items) for letters in both] for both in pairs.both.values()], float).reshape(-1, 2)
    before, after = (float(column.mean()) if column.size else float("nan") for column in scores.T)
    gain, verdict, reason = judged(class_gain(*scores.T, level), scores, len(items))
    told = (items, len(scores), before, after, gain, verdict, reason, pairs.only, pairs.doubts, source is None)
    return ConceptCheck(*told, cautions=cautions_of(gain, pairs, len(scores)))


def _item(place, question, pairs):
    moved = Counter((before[place], after[place]) for before, after in pairs.both.values())
    before, after = (Counter(letters) for letters in zip(*moved.elements())) if moved else (Counter(), Counter())
    return ItemCount(place + 1, question, before, after, moved)


def _score(letters, items):
    """% right of one sheet."""
    return 100 * sum(letter == item.right for letter, item in zip(letters, items)) / len(items)
