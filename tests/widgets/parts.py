"""What the tests of cards share: pressing a card's button as the browser does, and reading what it shows."""

from itertools import count

NUMBERS = count()


def press(card, name, **values):
    """Send what the browser sends when `name` is pressed; gives the sentence that the card's status line shows then."""
    number = f"test-{next(NUMBERS)}"
    card._handle_custom_msg({"press": name, "number": number, "values": values}, [])
    assert card.reply["to"] == number
    return card.reply["text"]


def words(card):
    """All that a card shows, as one text with single spaces."""
    return " ".join(" ".join([card.title, *(_of_block(block) for block in card.blocks)]).split())


def buttons_of(card):
    """The presses that a card offers now."""
    return [press for block in card.blocks if block["is"] == "buttons" for press, _ in block["presses"]]


def options_of(card, part=""):
    """The choices of the first block of choices whose key holds `part`: {value: words}."""
    block = next(each for each in card.blocks if each["is"] == "choices" and part in each["key"])
    return dict(block["options"])


def block_of(card, key):
    """The block with that key, or None."""
    return next((each for each in card.blocks if each["key"] == key), None)


def _of_block(block):
    parts = [block.get(name, "") for name in ("title", "legend", "label", "text", "value")]
    pairs = [word for name in ("options", "pairs", "presses") for pair in block.get(name, []) for word in pair]
    parts = [each for each in parts if isinstance(each, str)]  # the value of a chart is no text
    return " ".join([*parts, *pairs, *block.get("lines", []), *block.get("starters", [])])


def move(view, **values):
    """Move the grips of a lesson's view as the browser does; gives its answer."""
    number = f"test-{next(NUMBERS)}"
    view._handle_custom_msg({"values": {**view.values, **values}, "number": number}, [])
    assert view.answer["to"] == number
    return view.answer
