"""How far a learner has come in a lesson, as a line in its cards."""

from kit.coursework import progress_of
from kit.widgets.cards.card import text
from kit.words import counted


def progress(lesson, keeping):
    """A block that says: 'So far: kept 2 of 2 predictions, 5 of 5 questions looked at, 1 note written.'"""
    so_far = progress_of(lesson, keeping.kept)
    return text("progress", f"So far: {so_far} looked at, {counted(so_far.notes[0], 'note')} written.", tone="quiet")
