"""How far a learner has come in a lesson: counted, never scored."""

from dataclasses import dataclass

from kit.words import counted


@dataclass(frozen=True)
class Progress:
    """How many predictions were kept, questions looked at and notes written, each with how many there are. Prints as words."""

    predictions: tuple
    questions: tuple
    notes: tuple

    @property
    def begun(self):
        """Has anything been kept?"""
        return any(done for done, _ in (self.predictions, self.questions, self.notes))

    def __str__(self):
        parts = [(self.predictions, "prediction"), (self.questions, "question")]
        words = [f"{done} of {counted(there, name)}" for (done, there), name in parts if there]
        return f"kept {', '.join(words)}" if words else ""


def progress_of(lesson, kept):
    """The `Progress` that the answers `kept` make in `lesson`."""

    def how_many(cards, kind):
        return sum(kept.latest(f"{lesson.number}.{each.key}", kind) is not None for each in cards), len(cards)

    return Progress(how_many(lesson.predictions, "prediction"), how_many(lesson.questions, "question"), how_many(lesson.notes, "note"))


def next_step(outline, lesson, kept, marked):
    """The first `LessonStep` in which something is still to be done, or None. `marked`: have windows been moved from where they began?"""

    def done(verb, card):
        return marked if verb == "mark_windows" else _is_done(verb, card, lesson, kept)

    return next((step for step in outline.steps if not all(done(*task) for task in step.tasks)), None)


def _is_done(verb, card, lesson, kept):
    if verb == "quiz":
        return all(kept.latest(f"{lesson.number}.{each.key}", "question") for each in lesson.questions)
    if verb == "recall":
        predicted = kept.latest(card, "prediction", "skipped")
        return predicted is not None and (predicted.kind == "skipped" or kept.latest(card, "second look") is not None)
    return kept.latest(card, *(("prediction", "skipped") if verb == "predict" else ("note",))) is not None
