"""A lesson's cards: predictions, gates, questions and notes, made of blocks that any view can use."""

from kit.widgets.cards.card import Card, area, beside, bullets, buttons, choices, lettered, step_link, text
from kit.widgets.cards.gate import after, view_of
from kit.widgets.cards.keeping import keeping_at, keeping_of, time_of
from kit.widgets.cards.notes import note, note_in
from kit.widgets.cards.numbers import Numbers, numbers_of_effect
from kit.widgets.cards.prediction import predict, recall
from kit.widgets.cards.questions import quiz

__all__ = [
    "Card", "after", "area", "beside", "bullets", "buttons", "choices", "keeping_at", "keeping_of", "lettered", "note", "note_in", "Numbers",
    "numbers_of_effect",
    "predict", "quiz", "recall", "step_link", "text", "time_of", "view_of",
]
