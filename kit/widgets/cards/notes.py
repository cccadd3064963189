"""The learner's own writing: kept at every pause, and two other notes to compare with once something is written."""

from kit.coursework import read_card
from kit.widgets.cards.card import Card, area, beside, bullets, buttons, text
from kit.widgets.cards.keeping import keeping_of, time_of
from kit.widgets.cards.progress import progress

ENOUGH = 20  # letters that make a note worth comparing


def note(card_id):
    """A card to write in, with beginnings of sentences. Its text goes to the lesson's answers, and from there into the report."""
    lesson, task = read_card(card_id)
    keeping = keeping_of(lesson.number)
    return note_in(keeping, card_id, card_id, task, lambda: [progress(lesson, keeping)])


def note_in(keeping, name, card_id, task, below=list):
    """The same with its text kept in `keeping` as the answer to `card_id`; `name` is the card's, `below()` gives blocks under it."""

    def written():
        latest = keeping.kept.latest(card_id, "note")
        return latest.content["text"] if latest else ""

    def draw():
        damage = [text("damage", keeping.remark, tone="fault")] if keeping.remark else []
        prompt = text("prompt", task.prompt, tone="stem")
        box = area("text", "Your note", written(), rows=5, live="typed", starters=task.starters)
        return [*damage, prompt, box, *_comparison(task, keeping.kept.latest(card_id, "compared")), *below()]

    def typed(values):
        if values["text"] != written():
            return keeping.add(card_id, "note", text=values["text"])
        latest = keeping.kept.latest(card_id, "note")
        return f"Kept at {time_of(latest)}." if latest else ""

    def compare(values):
        if len(values["text"].strip()) < ENOUGH:
            return "Write a sentence of your own first. Then compare."
        typed(values)
        keeping.add(card_id, "compared")
        return "Two other notes are below yours. You can still change your own."

    card = Card(name, "For your notebook", draw, typed=typed, compare=compare)
    keeping.observe(card.redraw, "kept")
    return card


def _comparison(task, compared):
    if not compared:
        return [buttons("do", ("compare", "Compare with two other notes"))]
    return [beside("samples", *task.samples), bullets("look", "Which note tells a reader more? Look for:", task.look_for)]
