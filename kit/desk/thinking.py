"""The cards on what the class thought: predictions and what became of them, questions missed first, notes without names."""

import re

from kit.desk.bringing import desk_card
from kit.desk.counting import hinges_of, KEPT, notes_of, predictions_of, questions_of
from kit.desk.years import earlier_years, keep_year
from kit.widgets.cards import area, beside, bullets, buttons, choices, text
from kit.widgets.intake import first_rows

NOTHING = "No hand-in has come in yet. Loggers' files alone don't hold what anybody thought."
NAMELESS = "Counts only: no names, and nothing here is a mark."
FEW = "With so few, everybody may know who said what. Show it only if that is fine with them."
NAMED, ENOUGH = 5, 5
EARLIER = 4  # classes beside this one; the newest
HEADS = ("choice", "at first", "of them sure", "changed to it")
KEPT_YEAR = "Kept in {}. The next class will see it beside its own."
CHANGED = "{label} (kept {kept}) chose among other words. The choices of this card have changed since, so these counts stand apart."
UNFILLED = re.compile(r"\{[^}]*\}")


def predictions_card(desk):
    """A table for each prediction: how many chose what, how many were sure, what they changed it to, and what earlier classes chose."""

    def draw():
        counts = predictions_of(desk.collected.packages)
        years, faults = earlier_years()
        tables = [part for place, count in enumerate(counts) for part in _prediction(place, count, years[-EARLIER:])]
        unread = [bullets("unread", "Could not be read", faults)] if faults else []
        return [*_about(desk, counts), *tables, *unread, *(_keeping() if counts else [])]

    def keep(values):
        path = keep_year(values.get("label", ""), predictions_of(desk.collected.packages))
        desk.turn += 1
        return KEPT_YEAR.format(path.as_posix())

    return desk_card(desk, "predictions", "What the class predicted, and changed", draw, keep=keep)


def _keeping():
    label = area("label", "Class and year, such as 8b 2026. No names of learners.", "", rows=1)
    return [label, buttons("keep-do", ("keep", "Keep these counts for later years"))]


def _about(desk, counts):
    if not counts:
        return [text("none", NOTHING)]
    few = [text("few", FEW, tone="quiet")] if len(desk.collected.packages) < ENOUGH else []
    return [text("nameless", NAMELESS, tone="quiet"), *few]


def _prediction(place, count, years):
    met = [year for year in years if any(year.of(count))]
    rows = [(*row, *earlier) for row, *earlier in zip(count.rows, *(year.of(count) for year in met))]
    stayed = f"{count.changed[KEPT]} kept their answer when they looked again." if count.changed else "Nobody has looked again yet."
    table = first_rows(f"table-{place}", str(count), (*HEADS, *(year.label for year in met)), rows, wraps=True)
    apart = [
        first_rows(f"apart-{place}-{n}", CHANGED.format(label=year.label, kept=year.kept), ("choice then", year.label), rows, wraps=True)
        for n, year in enumerate(years) if (rows := year.apart(count))
    ]
    return [text(f"stem-{place}", count.prediction.stem, tone="stem"), table, *apart, text(f"stayed-{place}", stayed, tone="quiet")]


def questions_card(desk):
    """The questions missed by most at first, each with the idea behind it; then the hinge questions with what to do."""

    def draw():
        counts = questions_of(desk.collected.packages)
        missed = [count for count in counts if count.missed][:NAMED]
        head = [text("missed", "Missed by most at first", tone="stem")] if missed else []
        hinges = hinges_of(desk.collected.packages)
        foot = [text("hinges", "Hinge questions", tone="stem")] if hinges else []
        told = [block for place, count in enumerate(missed) for block in _question(f"missed-{place}", count, str(count))]
        asked = [block for place, count in enumerate(hinges) for block in _question(f"hinge-{place}", count, f"{_right(count)} {count.advice}")]
        return [*_about(desk, counts), *head, *told, *foot, *asked]

    return desk_card(desk, "questions", "Which questions were missed first", draw)


def _right(count):
    return f"{count.lesson.label}, question {count.number}: {count.asked - count.missed} of {count.asked} found it at first."


def _question(key, count, title):
    """A question with its choices: how many took each at first, and the idea it stands for."""
    rows = [
        (letter, _said(choice.text), count.first[letter], "right" if choice.right else choice.idea)
        for letter, choice in zip("abcdefgh", count.question.choices)
    ]
    table = first_rows(key, "Choices", ("letter", "choice", "at first", "idea behind it"), rows, wraps=True)
    return [text(f"{key}-said", _said(count.question.stem), title=title), table]


def _said(words):
    """A text of a card; numbers that each learner's own run fills in stand as dots."""
    return UNFILLED.sub("…", words)


def notes_card(desk):
    """All that was written for one note at a time, and two of them side by side, for the wall."""
    shown = {"note": "0", "left": "", "right": ""}

    def draw():
        every = notes_of(desk.collected.packages)
        if not every:
            return [text("none", NOTHING)]
        here = every[min(int(shown["note"]), len(every) - 1)]
        prompts = [(str(n), f"{each.lesson.label}: {each.note.prompt}") for n, each in enumerate(every)]
        which = choices("note", "Which note?", prompts, shown["note"])
        options = [(str(n), words) for n, words in enumerate(here.texts, start=1)]
        sides = [choices(side, f"For the {side} side of the wall", options, shown[side]) for side in ("left", "right")]
        picked = [dict(options)[shown[side]] for side in ("left", "right") if shown[side] in dict(options)]
        wall = [beside("wall", *zip(("Note A", "Note B"), picked))] if len(picked) == 2 else []
        return [which, buttons("turn", ("turn", "Show this note")), *sides, buttons("wall-do", ("wall", "Side by side")), *wall]

    def turn(values):
        shown.update(note=values.get("note", "0"), left="", right="")
        return ""

    def wall(values):
        shown.update({side: values.get(side, "") for side in ("left", "right")})
        return "" if shown["left"] and shown["right"] else "Choose one for each side first."

    return desk_card(desk, "notes", "What they wrote", draw, turn=turn, wall=wall)
