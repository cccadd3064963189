"""A prediction: kept before the run is seen, and laid beside the run's result afterwards. Never marked right or wrong."""

from kit.coursework import filled, read_card
from kit.settings import class_settings
from kit.widgets.cards.card import Card, area, beside, buttons, choices, lettered, step_link, text
from kit.widgets.cards.keeping import keeping_of, time_of
from kit.widgets.cards.numbers import on_change, shown_numbers

SURE, KEEP = ("a guess", "fairly sure", "sure"), "keep"
MISSING = {"choice": "choose one answer", "sure": "say how sure you are"}


def predict(card_id):
    """A card that asks for a prediction and keeps it. `card_id` is lesson and key: "00.warmer"; its texts stand in the lesson's TOML."""
    lesson, prediction = read_card(card_id)
    keeping = keeping_of(lesson.number)

    def draw():
        told = keeping.kept.latest(card_id, "prediction", "skipped")
        damage = [text("damage", keeping.remark, tone="fault")] if keeping.remark else []
        unfit = [text(f"unfit-{each}", each, tone="quiet") for each in class_settings().problems]
        return damage + unfit + (_asking(prediction) if told is None else _settled(prediction, told))

    def keep(values):
        missing = [words for name, words in MISSING.items() if not values.get(name)]
        if missing:
            return f"{'Two more clicks' if len(missing) == 2 else 'One more click'}: {', and '.join(missing)}."
        keeping.add(card_id, "prediction", **_chosen(prediction, values["choice"], values), sure=values["sure"])
        return ""

    def skip(_values):
        keeping.add(card_id, "skipped")
        return "Skipped. What was kept back is open now."

    card = Card(card_id, "Your prediction", draw, keep=keep, skip=skip)
    keeping.observe(card.redraw, "kept")
    return card


def recall(card_id, source=None):
    """A prediction beside the run's result as it is now; asks to keep or change it, and what decides.

    `source` gives the numbers: a window marker (followed as it moves) or a result; without one, the marks kept for the lesson's run.
    """
    lesson, prediction = read_card(card_id)
    keeping = keeping_of(lesson.number)

    def draw():
        if not keeping.decided(card_id):
            return [text("first", f"First your prediction, in Step {prediction.step}. Then this opens."), step_link("go", prediction.step)]
        told, looked = keeping.kept.latest(card_id, "prediction"), keeping.kept.latest(card_id, "second look")
        numbers = shown_numbers(lesson, source)
        if numbers.problem:
            return _not_yet(told, numbers.problem)
        return _confronted(prediction, told, numbers) + _second_look(prediction, told, looked)

    def keep(values):
        if not values.get("decision"):
            return "Choose first: keep your answer, or change it."
        keeping.add(card_id, "second look", **_chosen(prediction, values["decision"], values))
        return ""

    card = Card(f"{card_id}.recall", "A second look at your prediction", draw, keep=keep)
    keeping.observe(card.redraw, "kept")
    on_change(source, card.redraw)
    return card


def _asking(prediction):
    return [
        choices("choice", prediction.stem, _lettered(prediction)),
        choices("sure", "How sure are you?", [(each, each) for each in SURE], across=True),
        area("because", "Because … (may stay empty)"),
        buttons("do", ("keep", "Keep my prediction"), ("skip", "Skip, show me")),
    ]


def _settled(prediction, told):
    stem = text("stem", prediction.stem, tone="stem")
    if told.kind == "skipped":
        return [stem, text("said", "You chose to look first.", tone="kept")]
    later = f"Kept at {time_of(told)}. It comes back beside the result in Step {prediction.back}, where you can keep it or change it."
    return [stem, text("said", _said(told.content), tone="kept", title="You said"), text("later", later, tone="quiet")]


def _said(content):
    because = f"\nBecause: {content['because']}" if content.get("because") else ""
    sure = f" ({content['sure']})" if content.get("sure") else ""
    return f"{content['words']}{sure}.{because}"


def _chosen(prediction, letter, values):
    """What to keep of a choice: its letter, its words as they were read (none for 'I keep my answer'), and the reason."""
    return {"choice": letter, "words": dict(_lettered(prediction)).get(letter, ""), "because": values.get("because", "").strip()}


def _not_yet(told, problem):
    """What was said, and why the windows give nothing to compare it with so far."""
    move = text("move", "Move the windows first. This card follows.")
    return [beside("both", _own_words(told), ("The run can't say yet", problem)), move]


def _own_words(told):
    return ("You said", _said(told.content) if told else "You chose to look first.")


def _confronted(prediction, told, numbers):
    """What was said, what the run says now, and whether the two agree: never a mark."""
    ways = [beside("ways", *((title, filled(each, numbers.texts)) for title, each in prediction.ways))] if prediction.ways else []
    pair = beside("both", _own_words(told), ("What came out", filled(prediction.says, numbers.texts)))
    return [pair, *ways, *_agreement(prediction, told, numbers)]


def _agreement(prediction, told, numbers):
    """Whether the run came out as predicted. Nothing is said of a choice that the lesson no longer has, or that predicts no value."""
    predicted = next((each for each in prediction.choices if told and each.text == told.content["words"]), None)
    if predicted is None or not prediction.number:
        return []
    fits = predicted.predicts(numbers.values[prediction.number])
    return [text("fits", "Your prediction fits what came out." if fits else "Worth a second look: something else came out.")]


def _second_look(prediction, told, looked):
    """The question keep or change, with what was decided before filled in. Nothing to ask of somebody who passed the prediction over."""
    if told is None:
        return []
    others = [(letter, f"I change it to: {words}") for letter, words in _lettered(prediction) if words != told.content["words"]]
    before = looked.content if looked else {}
    kept = [text("kept", f"Kept at {time_of(looked)}: {_decided(looked.content)}", tone="kept")] if looked else []
    return [
        choices("decision", "What do you say now?", [(KEEP, "I keep my answer."), *others], before.get("choice", "")),
        area("because", "What on this page decides it?", before.get("because", "")),
        buttons("do", ("keep", "Keep this")),
        *kept,
    ]


def _decided(content):
    because = f" Because: {content['because']}" if content["because"] else ""
    return (f"you changed it to: {content['words']}." if content["words"] else "you keep your answer.") + because


def _lettered(prediction):
    return lettered(each.text for each in prediction.choices)
