"""The card on the concept check: its sheets to print, a grid to type them into, and what the class thought before and after."""

from pathlib import Path

from kit.analysis.concepts import concept_check
from kit.charts import chart
from kit.charts.still import svg
from kit.coursework import AFTER, BEFORE, CONCEPTS, ConceptSheet, read_concept_sheets, read_lesson, write_concept_sheets
from kit.desk.bringing import desk_card
from kit.desk.conceptpage import write_concept_pages
from kit.widgets.cards import bullets, buttons, text
from kit.widgets.intake import first_rows, folded, typing_sheet
from kit.words import listed

FILE = f"{CONCEPTS}.csv"
HELP = (
    "Type each sheet as one row: the code, then its letters in one go, such as bcdbdacb, with a point for a question left out. Enter goes on. "
    "The order does not count: the code pairs the sheets."
)
KEPT_IN = f"Every entry is kept at once in {FILE} beside this page. A spreadsheet may write that file, too: then read it again."
CAPTIONS = {BEFORE: "Sheets from before lesson 00", AFTER: "Sheets from after lesson 12"}
PILOT = "These questions are our own and untested. Pilot them before you trust them, and don't go over them after the first time."
NONE_YET = "No sheet is typed in yet. An invented class shows what comes of it."
ALT = "For each question, how many had it right before and after."
PRINTED = "{} are written. Open them in the file list on the left, then print them. The key is for you only."
HEADS = ("letter", "choice", "before", "after", "idea behind it")


def concepts_card(desk):
    """The concept check, from the sheets to print to the gain."""
    shown = {"reads": 0, "invented": False}

    def draw():
        sheets = read_concept_sheets(FILE)
        top = [text("pilot", PILOT, tone="quiet"), buttons("sheets", ("print", "Make the sheets to print")), text("help", HELP)]
        grids = [_grid(when, sheets, shown["reads"]) for when in (BEFORE, AFTER)]
        turn = "Back to our own sheets" if shown["invented"] else "Look at an invented class"
        foot = [text("kept-in", KEPT_IN, tone="quiet"), buttons("do", ("again", "Read the file again"), ("invented", turn))]
        told = concept_check() if shown["invented"] else concept_check(sheets)
        return [*top, *grids, *foot, *(_result(told) if sheets or shown["invented"] else [text("none", NONE_YET)])]

    def keep(when):
        def entered(values):
            rows = [(str(code).strip(), str(letters).strip()) for code, letters in values["rows"]]
            others = [each for each in read_concept_sheets(FILE) if each.when != when]
            mine = [ConceptSheet(when, *row) for row in rows if any(row)]
            write_concept_sheets(FILE, [*mine, *others] if when == BEFORE else [*others, *mine], len(read_lesson(CONCEPTS).questions))
            return f"Kept in {FILE}."

        return entered

    def again(_values):
        shown["reads"] += 1
        return f"{FILE} is read again." if Path(FILE).exists() else f"There is no {FILE} beside this page yet."

    def invented(_values):
        shown["invented"] = not shown["invented"]
        return ""

    presses = {BEFORE: keep(BEFORE), AFTER: keep(AFTER), "again": again, "invented": invented, "print": lambda _values: _print()}
    return desk_card(desk, "concepts", "What they thought before, and after", draw, **presses)


def _grid(when, sheets, reads):
    """The rows of one pile; under another key once the file is read anew, so that what stands there gives way."""
    rows = [[each.code, each.letters] for each in sheets if each.when == when]
    return typing_sheet(f"{when}-{reads}", CAPTIONS[when], ("code", "letters"), {"rows": rows, "odd": []}, when)


def _print():
    return PRINTED.format(listed(path.as_posix() for path in write_concept_pages()))


def _result(check):
    doubts = [bullets("doubts", "Look at these sheets again", check.doubts)] if check.doubts else []
    if not check.learners:
        return [*doubts, text("verdict", str(check))]
    picture = folded("chart", "All questions on one chart", svg(chart(check), str(check), headed=False), ALT)
    items = [first_rows(f"item-{item.number}", str(item), HEADS, item.rows, wraps=True) for item in check.items]
    stems = [text(f"stem-{item.number}", item.question.stem, title=f"{item.number}. {item.question.hint}") for item in check.items]
    parts = [part for pair in zip(stems, items) for part in pair]
    account = bullets("account", "How this was worked out, and what it does not show", str(check.explain()).splitlines())
    return [*doubts, text("verdict", str(check), tone="kept"), picture, *parts, account]
