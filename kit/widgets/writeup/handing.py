"""The button that makes the file for the teacher, after its maker has seen what will be in it."""

import kit
from kit.settings import class_settings
from kit.widgets.cards import area, bullets, buttons, Card, text

READY = "One file with what you kept, for your teacher. Look first at what would be in it. Nothing is sent: you give the file away yourself."
NAME = "Name of your group (may stay empty: then nobody is named)"


def hand_in_card():
    """A button that shows what would be handed in, then one that makes the file `hand-in.zip` beside the notebook."""
    looked = []

    def draw():
        if not looked:
            return [text("ready", READY), buttons("do", ("look", "Show me what would be in it"))]
        shown = looked[-1]
        out = [bullets("out", "Not in it", shown.faults)] if shown.faults else []
        made = [text("made", str(shown), tone="kept")] if shown.path else []
        named = [area("group", NAME, rows=1)] if class_settings()["ask_names"] else []
        form = [*named, buttons("do", ("make", "Make the file"), ("look", "Look again"))]
        return [bullets("in", "In it", shown.contents), *out, *form, *made]

    def look(_values):
        looked.append(kit.look_at_hand_in())
        return "This is what would be in it."

    def make(values):
        looked.append(kit.hand_in(values.get("group", "") if class_settings()["ask_names"] else ""))
        return f"{looked[-1].path.name} is made."

    return Card("hand-in", "Hand in", draw, look=look, make=make)
