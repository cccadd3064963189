"""How far a learner has come in a lesson: counted, never scored."""

from kit.widgets.cards.card import text
from kit.words import counted


def progress(lesson, keeping):
    """A block that says: 'kept 2 of 2 predictions, 5 of 5 questions looked at, 1 note written'."""
    made = _how_many(keeping, (each.key for each in lesson.predictions), lesson, "prediction")
    seen = _how_many(keeping, (each.key for each in lesson.questions), lesson, "question")
    written = _how_many(keeping, (each.key for each in lesson.notes), lesson, "note")
    predictions, questions = counted(len(lesson.predictions), "prediction"), counted(len(lesson.questions), "question")
    words = f"So far: kept {made} of {predictions}, {seen} of {questions} looked at, {counted(written, 'note')} written."
    return text("progress", words, tone="quiet")


def _how_many(keeping, keys, lesson, kind):
    return sum(keeping.kept.latest(f"{lesson.number}.{key}", kind) is not None for key in keys)
