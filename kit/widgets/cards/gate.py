"""A thing held back until its prediction is made, so that a lesson which runs as a whole spoils none."""

import ipywidgets

from kit.coursework import read_card
from kit.widgets.cards.card import Card, step_link, text
from kit.widgets.cards.keeping import keeping_of
from kit.widgets.shared import shown, told


def after(card_id, thing):
    """Show `thing` (a chart, a widget, a result, or a function that makes one) once the prediction `card_id` is kept or passed over.

    Until then a reminder stands in its place. It opens by itself, in this cell, without being run again.
    """
    lesson, prediction = read_card(card_id)
    keeping, reminder = keeping_of(lesson.number), _reminder(card_id, prediction.step)
    gate = ipywidgets.VBox([reminder])

    def open_once(_change=None):
        if gate.children == (reminder,) and keeping.decided(card_id):
            gate.children = (view_of(card_id, thing),)

    open_once()
    keeping.observe(open_once, "kept")
    return gate


def _reminder(card_id, step):
    words = f"This opens by itself once you have answered in Step {step}."
    return Card(f"{card_id}.gate", "Your prediction comes first", lambda: [text("why", words), step_link("go", step)])


def view_of(name, thing):
    """A widget that shows `thing`, or what the function `thing` gives; a card with the reason if that can't be shown."""
    inside = told(shown)(thing)
    return inside if isinstance(inside, ipywidgets.Widget) else Card(f"{name}.fault", "This could not be shown", lambda: inside)
