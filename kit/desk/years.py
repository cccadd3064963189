"""What earlier classes predicted: a small file of counts for each class and year, without names, beside the desk."""

import json
import re
from collections import Counter
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from kit.coursework import safe_name
from kit.desk.counting import known_as, SKIPPED
from kit.faults import Fault
from kit.storage import write_atomically

FOLDER, KIND = "years", "twin-vessels class counts"
LONGEST_LABEL = 40
PARTING = re.compile(r"[./\\]+")  # marks that would part a file's name in two
NO_LABEL = "Write class and year first, such as 8b 2026."
REFUSED = "The counts could not be written ({why}). Make room in the folder years, then press again."
DAMAGED = "{name} in the folder years holds no counts that can be read. It is passed over."


@dataclass(frozen=True)
class YearCount:
    """One class in one year: its `label`, the day its counts were `kept`, {card: {choice: how many predicted it at first}}, and which choices
    each card `offered` then (an older file does not say)."""

    label: str
    kept: str
    first: dict = field(default_factory=dict)
    offered: dict = field(default_factory=dict)

    def of(self, count):
        """For each row of a `PredictionCount`: '7 of 24'; '' where this class never met the card, or met it with other choices."""
        texts, found = texts_of(count), Counter()
        for text, number in self.first.get(card_of(count), {}).items():
            found[text if text == SKIPPED else known_as(text, texts)] += number
        return [f"{found[row[0]]} of {found.total()}" if found and self._chose_among(texts, count) else "" for row in count.rows]

    def apart(self, count):
        """(choice as it was worded then, '7 of 24') where this class met the card with other choices than it has now; else []."""
        found = Counter(self.first.get(card_of(count), {}))
        if not found or self._chose_among(texts_of(count), count):
            return []
        return [(text, f"{found[text]} of {found.total()}") for text in dict.fromkeys([*self.offered.get(card_of(count), ()), *found])]

    def _chose_among(self, texts, count):
        """Whether the choices then were these `texts`, be it in the other unit."""
        card = card_of(count)
        then = {*self.offered.get(card, texts), *self.first.get(card, {})} - {SKIPPED}
        return {known_as(text, texts) for text in then} == set(texts)


def keep_year(label, counts, folder=".", today=None):
    """Keep the first choices of these `PredictionCount`s as those of the class and year named; gives the path. Counts that were kept under
    the same label are replaced. A Fault for no label, or where the folder refuses."""
    label = " ".join(str(label).split())[:LONGEST_LABEL]
    if not label:
        raise Fault(NO_LABEL)
    first = {card_of(count): dict(count.first) for count in counts}
    offered = {card_of(count): texts_of(count) for count in counts}
    told = {"kind": KIND, "class": label, "kept": str(today or date.today()), "first": first, "offered": offered}
    path = Path(folder) / FOLDER / safe_name(f"{PARTING.sub('-', label)}.json")
    try:
        write_atomically(path, json.dumps(told, ensure_ascii=False, indent=1) + "\n")
    except OSError as problem:
        raise Fault(REFUSED.format(why=problem.strerror)) from problem
    return path


def earlier_years(folder="."):
    """(`YearCount`s of all classes that were kept, the newest last; a sentence for each file that can't be read)."""
    found, faults = [], []
    for path in sorted((Path(folder) / FOLDER).glob("*.json")):
        try:
            found.append(_read(json.loads(path.read_text(encoding="utf-8"))))
        except (OSError, ValueError, TypeError, KeyError, AttributeError):
            faults.append(DAMAGED.format(name=path.name))
    return tuple(sorted(found, key=lambda year: (year.kept, year.label))), tuple(faults)


def _read(told):
    first = {str(card): {str(text): int(number) for text, number in choices.items()} for card, choices in told["first"].items()}
    if told["kind"] != KIND or any(number < 0 for choices in first.values() for number in choices.values()):
        raise ValueError(KIND)
    offered = {str(card): tuple(map(str, texts)) for card, texts in told.get("offered", {}).items()}
    return YearCount(str(told["class"])[:LONGEST_LABEL], str(told["kept"]), first, offered)


def card_of(count):
    """What names a prediction in the file: '00.warmer'."""
    return f"{count.lesson.number}.{count.prediction.key}"


def texts_of(count):
    """The choices of a `PredictionCount`'s card as the lesson words them now."""
    return [choice.text for choice in count.prediction.choices]
