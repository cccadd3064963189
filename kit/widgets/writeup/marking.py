"""The rubric, ticked by the learner and then by a reader; and the button that makes the report."""

import kit
from kit.coursework import level_of, RUBRIC
from kit.faults import Fault
from kit.widgets.cards import area, bullets, buttons, Card, choices, keeping_of, text
from kit.words import listed

WHO = (("learner", "I wrote it"), ("reader", "I read it for somebody"))
NO_REPORT = "This kit can't make a report yet."
READY = "The report gathers what you kept: runs, windows, numbers, notes. Make it as often as you like, none is overwritten."


def rubric(lesson):
    """The rubric of the write-up as a card: each part from 0 to 3, ticked by who wrote it or by a reader, who may add one question.

    It is kept with the answers to `lesson` ("12"), as "12.rubric".
    """
    card_id, keeping = f"{lesson}.rubric", keeping_of(lesson)

    def draw():
        last = keeping.kept.latest(card_id, "rubric")
        told = last.content if last else {}
        parts = [choices(part, part.capitalize(), _levels(levels), told.get(part, "")) for part, levels in RUBRIC.items()]
        kept = [text("kept", _said(told), tone="kept", title="Ticked last")] if told else []
        who = choices("who", "Who ticks?", WHO, told.get("who", "learner"), across=True)
        question = area("question", "One question to the writer (may stay empty)", told.get("question", ""))
        return [who, *parts, question, buttons("do", ("keep", "Keep these levels")), *kept]

    def keep(values):
        missing = [part for part in RUBRIC if not values.get(part)]
        if missing:
            return f"Choose a level for {listed(missing)} first."
        keeping.add(card_id, "rubric", **{name: values.get(name, "") for name in ("who", *RUBRIC)}, question=values.get("question", "").strip())
        return ""

    card = Card(card_id, "How far does the page go?", draw, keep=keep)
    keeping.observe(card.redraw, "kept")
    return card


def _levels(levels):
    return [(f"level {n}", f"{n}: {words}") for n, words in enumerate(levels)]


def _said(told):
    points = sum(level_of(told, part) for part in RUBRIC)
    asked = f"\nAsked: {told['question']}" if told["question"] else ""
    levels = listed(f"{part} {level_of(told, part)}" for part in RUBRIC)
    return f"{levels}: {points} of {3 * len(RUBRIC)} points, ticked by the {told['who']}.{asked}"


def report_card():
    """A button that makes the report; below it what a reader of it would still ask."""
    made = []

    def draw():
        asked = made[-1].questions if made else ()
        gaps = [bullets("gaps", "A reader would still ask", asked)] if asked else []
        said = [text("made", str(made[-1]), tone="kept")] if made else []
        return [text("ready", READY), buttons("do", ("make", "Make my report")), *said, *gaps]

    def make(_values):
        if not hasattr(kit, "make_report"):
            raise Fault(NO_REPORT)
        made.append(kit.make_report())
        return ""

    return Card("report", "The report", draw, make=make)
