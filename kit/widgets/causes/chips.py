"""Seven causes, a card each: the learner lays three chips on those believed in, at the start and once more at the end."""

from kit.analysis.causes import BY_LETTER, RIVALS
from kit.widgets.cards import buttons, Card, keeping_of, text
from kit.widgets.shared import script, sheet
from kit.words import listed

CHIPS = 3
ASKED = "Lay three chips on the causes you believe in. A guess is welcome."
AGAIN = "Now that the runs are in: where do your three chips lie?"
FEWER = "Lay three chips first. You have laid {laid}."


class CausesCard(Card):
    """A card that can also hold seven causes to lay chips on, and bars of what each can be."""

    _esm = script("causes/causes")
    _css = sheet("shared/page/look", "cards/cards", "intake/handing", "causes/causes")


def lay_chips(lesson, *, again=False):
    """Seven causes as cards, three of which get a chip; kept with the answers to `lesson` ("10"). `again`: once more, at the end."""
    keeping, kept_as = keeping_of(lesson), "chips again" if again else "chips"

    def draw():
        first, now = (laid(keeping, lesson, kind) for kind in ("chips", kept_as))
        before = [text("before", f"At the start: {_named(first)}.", tone="quiet")] if again and first else []
        kept = [text("kept", f"Your chips: {_named(now)}.", tone="kept")] if now else []
        asked = seven("chips", AGAIN if again else ASKED, now)
        return [*before, asked, buttons("do", ("keep", "Keep my three chips")), *kept]

    def keep(values):
        chosen = values.get("chips", "")
        if len(chosen) != CHIPS:
            return FEWER.format(laid=len(chosen) or "none")
        keeping.add(f"{lesson}.chips", kept_as, causes=chosen)
        return ""

    card = CausesCard(f"{lesson}.{kept_as}", "Three chips, once more" if again else "Three chips", draw, keep=keep)
    keeping.observe(card.redraw, "kept")
    return card


def laid(keeping, lesson, kind="chips"):
    """Letters of the causes on which the three chips lie, '' before."""
    kept = keeping.kept.latest(f"{lesson}.chips", kind)
    return kept.content["causes"] if kept else ""


def seven(key, legend, chosen):
    """A block of all causes to lay chips on; its value is the letters that have one."""
    options = [[each.letter, each.name, each.story] for each in RIVALS]
    return {"is": "seven", "key": key, "legend": legend, "options": options, "most": CHIPS, "value": chosen}


def _named(letters):
    return listed(str(BY_LETTER[letter]) for letter in letters)
