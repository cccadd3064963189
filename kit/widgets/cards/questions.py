"""Questions to check oneself: one open at a time, feedback that explains every choice, nothing scored."""

from kit.coursework import filled, read_lesson
from kit.widgets.cards.card import Card, buttons, choices, lettered, onwards, step_link, text
from kit.widgets.cards.keeping import keeping_of
from kit.widgets.cards.numbers import numbers_for, on_change
from kit.widgets.cards.progress import progress
from kit.words import listed

ENOUGH_TRIES = 3


def quiz(lesson, source=None):
    """The questions of `lesson` ("00"). Numbers in them are those of `source` (a window marker, or a result) as they are now.

    While a marker's windows are unfit, or two choices would lie too close, the numbers are those of the kit's windows; the card says so.
    """
    lesson = read_lesson(lesson)
    keeping = keeping_of(lesson.number)
    place = Place(lesson.questions, next((n for n, each in enumerate(lesson.questions) if not _tries(lesson, keeping, each)), 0))

    def draw():
        tries = _tries(lesson, keeping, place.question)
        asked = _question(place.question, tries, numbers_for(lesson, source, place.question))
        end = _closing(lesson, keeping) if place.is_last and is_done(place.question, tries) else []
        return [text("place", place.words, tone="quiet"), *asked, *end, place.buttons(tries), progress(lesson, keeping)]

    def check(values):
        question = place.question
        letter = values.get(f"{question.key}-choice")
        if not letter:
            return "Choose an answer first."
        words = dict(_options(question, numbers_for(lesson, source, question)))[letter]
        keeping.add(f"{lesson.number}.{question.key}", "question", choice=letter, words=words)
        return ""

    card = Card(f"{lesson.number}.quiz", "Check yourself", draw, check=check, next=lambda _: place.move(1), back=lambda _: place.move(-1))
    keeping.observe(card.redraw, "kept")
    on_change(source, card.redraw)
    return card


class Place:
    """Which of the questions is open."""

    def __init__(self, questions, at):
        self.questions, self.at = questions, at

    @property
    def question(self):
        return self.questions[self.at]

    @property
    def is_last(self):
        return self.at + 1 == len(self.questions)

    @property
    def words(self):
        return f"Question {self.at + 1} of {len(self.questions)}"

    def move(self, by):
        """Open the next or the previous question."""
        self.at = min(max(self.at + by, 0), len(self.questions) - 1)

    def buttons(self, tries):
        """What can be pressed now: check while there is something left to try, then onwards; the main thing first."""
        further = [] if self.is_last else [("next", "Next question")]
        back = [("back", "Question before")] if self.at else []
        if is_done(self.question, tries):
            return {**buttons("do", *further, *back), "plain": self.is_last}  # after the last one, the way on is the main button
        return buttons("do", ("check", "Check again" if tries else "Check my answer"), *further, *back)


def _closing(lesson, keeping):
    """After the last question: which ones stay open, and the way on."""
    tried = [_tries(lesson, keeping, question) for question in lesson.questions]
    right = [any(_chosen(question, each).right for each in tries) for question, tries in zip(lesson.questions, tried)]
    left = [str(n) for n, settled in enumerate(right, 1) if not settled]
    words = f"Still open: question {listed(left)}. Go back to it now, or later." if left else "You found the answer to every question."
    return [text("closing", words, title="That was the last question."), onwards("on", "Go on with the next step")]


def is_done(question, tries):
    """Was the right choice found, or shown after the third miss?"""
    return len(tries) >= ENOUGH_TRIES or any(_chosen(question, each).right for each in tries)


def _question(question, tries, numbers):
    """The question with its choices, and what there is to say about the last one taken."""
    last = tries[-1].content["choice"] if tries else ""
    asked = choices(f"{question.key}-choice", filled(question.stem, numbers.texts), _options(question, numbers), last)
    origin = [text(f"{question.key}-origin", numbers.origin, tone="quiet")] if numbers.origin else []
    return [asked, *origin, *(_feedback(question, tries, numbers) if tries else [])]


def _feedback(question, tries, numbers):
    """Feedback on the last choice; at the second miss a hint, at the third the answer with its reason."""
    taken, key = _chosen(question, tries[-1]), f"{question.key}-said-{len(tries)}"
    said = filled(taken.feedback, numbers.texts)
    if taken.right:
        return [text(key, said, tone="feedback", title="Yes. Here is why:")]
    blocks = [text(key, said, tone="feedback", title=f"Not yet. The idea behind this: {taken.idea}"), step_link(f"{key}-go", taken.back)]
    if len(tries) == ENOUGH_TRIES - 1:
        blocks.append(text(f"{key}-hint", filled(question.hint, numbers.texts), title="A hint"))
    if len(tries) >= ENOUGH_TRIES:
        answer = f"{filled(question.right.text, numbers.texts)}\n{filled(question.right.feedback, numbers.texts)}"
        blocks.append(text(f"{key}-answer", answer, tone="feedback", title="The answer, and why:"))
    return blocks


def _options(question, numbers):
    return lettered(filled(each.text, numbers.texts) for each in question.choices)


def _chosen(question, answer):
    return dict(lettered(question.choices))[answer.content["choice"]]


def _tries(lesson, keeping, question):
    """What was tried at a question. Choices that a teacher has taken out since are left aside."""
    letters = dict(lettered(question.choices))
    return [each for each in keeping.kept.of(f"{lesson.number}.{question.key}", "question") if each.content.get("choice") in letters]
