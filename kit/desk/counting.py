"""What a class predicted, changed, missed and wrote: counts for each choice and each idea, and notes, all without names."""

from collections import Counter
from dataclasses import dataclass
from hashlib import sha256

from kit.coursework import CardQuestion, Lesson, Note, Prediction
from kit.units import same_but_for_unit

LETTERS = "abcdefgh"
GONE, SKIPPED, KEPT = "a choice that the lesson no longer has", "looked first", "kept their answer"
GO_ON, ARGUE = 0.8, 0.5  # shares of right answers at a hinge question: our practice, from no source


@dataclass(frozen=True, eq=False)
class PredictionCount:
    """One prediction: how many chose each text `first` (a Counter, `SKIPPED` among it), how many of them were sure, and how many `changed` to each."""

    lesson: Lesson
    prediction: Prediction
    first: Counter
    sure: Counter
    changed: Counter

    @property
    def rows(self):
        """(choice, how many first, of them sure, how many changed to it)."""
        texts = [*(choice.text for choice in self.prediction.choices), *(each for each in (GONE, SKIPPED) if self.first[each])]
        return [(text, self.first[text], self.sure[text], self.changed[text]) for text in texts]

    def __str__(self):
        again = sum(self.changed.values())
        looked = f" Of {again} who looked again, {again - self.changed[KEPT]} changed it." if again else ""
        return f"{self.lesson.label}: {sum(self.first.values()) - self.first[SKIPPED]} predicted.{looked}"


@dataclass(frozen=True, eq=False)
class QuestionCount:
    """One question, the `number`-th of its lesson: each learner's `first` try by letter, the `ideas` behind first misses, and how many
    `missed` it of all who were `asked`."""

    lesson: Lesson
    number: int
    question: CardQuestion
    first: Counter
    ideas: Counter

    @property
    def asked(self):
        return sum(self.first.values())

    @property
    def missed(self):
        return self.asked - self.first[LETTERS[self.question.choices.index(self.question.right)]]

    @property
    def share_right(self):
        return 1 - self.missed / self.asked if self.asked else 0.0

    def __str__(self):
        named = f" Most often behind it: {self.ideas.most_common(1)[0][0]}." if self.ideas else ""
        return f"{self.lesson.label}, question {self.number}: {self.missed} of {self.asked} missed it at first.{named}"

    @property
    def advice(self):
        """What to do next, by how many found it at first."""
        if self.share_right >= GO_ON:
            return "Go on."
        back = Counter({choice.back: self.first[letter] for letter, choice in zip(LETTERS, self.question.choices) if not choice.right}).most_common(1)
        return "Let pairs argue, then vote again." if self.share_right >= ARGUE else f"Go back to Step {back[0][0]} together."


@dataclass(frozen=True, eq=False)
class Notes:
    """All texts that were written for one note of a lesson, in an order that tells nothing of who wrote them."""

    lesson: Lesson
    note: Note
    texts: tuple


def written_in(packages):
    """((lesson, what each learner kept of it), …) in the order of lessons."""
    found = {}
    for lesson, kept in (each for package in packages for each in package.material.written):
        found.setdefault(lesson.number, (lesson, []))[1].append(kept)
    return tuple(found[number] for number in sorted(found))


def predictions_of(packages):
    """A `PredictionCount` for each prediction that anybody came to."""
    counts = (_prediction(lesson, each, several) for lesson, several in written_in(packages) for each in lesson.predictions)
    return tuple(count for count in counts if sum(count.first.values()))


def _prediction(lesson, prediction, several):
    card, texts = f"{lesson.number}.{prediction.key}", {choice.text for choice in prediction.choices}
    first, sure, changed = Counter(), Counter(), Counter()
    for kept in several:
        told = next(iter(kept.of(card, "prediction", "skipped")), None)
        if told is None:
            continue
        chosen = SKIPPED if told.kind == "skipped" else _known(told, texts)
        first[chosen] += 1
        sure[chosen] += told.content.get("sure") == "sure"
        if later := kept.latest(card, "second look"):
            changed[_known(later, texts) if later.content.get("words") else KEPT] += 1
    return PredictionCount(lesson, prediction, first, sure, changed)


def _known(answer, texts):
    return known_as(str(answer.content.get("words", "")), texts)


def known_as(words, texts):
    """Which of a lesson's texts `words` are: the same, or the same in the other unit, as where the class read °C then and °F now; else `GONE`."""
    return words if words in texts else next((text for text in texts if same_but_for_unit(words, text)), GONE)


def questions_of(packages):
    """A `QuestionCount` for each question that anybody tried, the one that most missed at first before the others."""
    every = ((lesson, n, each, several) for lesson, several in written_in(packages) for n, each in enumerate(lesson.questions, start=1))
    counts = [count for one in every if (count := _question(*one)).asked]
    return tuple(sorted(counts, key=lambda count: (count.share_right, -count.asked)))


def _question(lesson, number, question, several):
    first, ideas = Counter(), Counter()
    letters = dict(zip(LETTERS, question.choices))
    for kept in several:
        tries = kept.of(f"{lesson.number}.{question.key}", "question")
        letter = next((letter for answer in tries if (letter := str(answer.content.get("choice"))) in letters), None)
        if letter:
            first[letter] += 1
            ideas.update([letters[letter].idea] if letters[letter].idea else [])
    return QuestionCount(lesson, number, question, first, ideas)


def hinges_of(packages):
    """The `QuestionCount` of each lesson's hinge question, in the order of lessons."""
    return tuple(sorted((each for each in questions_of(packages) if each.number == each.lesson.hinge), key=lambda each: each.lesson.number))


def notes_of(packages):
    """The `Notes` of each note that anybody wrote."""
    every = ((lesson, note, several) for lesson, several in written_in(packages) for note in lesson.notes)
    found = [Notes(lesson, note, _texts(f"{lesson.number}.{note.key}", several)) for lesson, note, several in every]
    return tuple(each for each in found if each.texts)


def _texts(card, several):
    latest = (kept.latest(card, "note") for kept in several)
    texts = {str(answer.content.get("text", "")).strip() for answer in latest if answer} - {""}
    return tuple(sorted(texts, key=lambda text: sha256(text.encode("utf-8", "replace")).hexdigest()))
