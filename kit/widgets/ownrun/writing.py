"""The learner's own words on the run, and the report."""

from functools import lru_cache

import kit
from kit.coursework import read_card
from kit.faults import Fault
from kit.widgets.cards import buttons, note_in, text
from kit.widgets.ownrun.step import in_code, Step

NOTE = "your-own-run.note"
HERE = "What you write is kept with the run {name} as you type. Each run has a note of its own."
NO_REPORT = "The report is not part of the kit yet. Your note and everything above are kept for it."
READY = "The report gathers what you kept: the run, the windows, the results and your note."


def note_step(page):
    """A box to write in, with beginnings of sentences, for each run its own."""

    def draw():
        return [text("here", HERE.format(name=page.run.name))]

    return Step(page, "note", "In your own words", draw, needs="run", below=lambda: _note(page.book))


@lru_cache(maxsize=8)
def _note(book):
    _, task = read_card(NOTE)
    return note_in(book, f"{NOTE}:{book.path.stem}", "note", task)


def report_step(page):
    """The button that makes the report, as soon as the kit has one."""
    make = getattr(kit, "make_report", None)

    def draw():
        if make is None:
            return [text("none", NO_REPORT)]
        return [text("ready", READY), buttons("do", ("make", "Make my report"))]

    def press(_values):
        if make is None:
            raise Fault(NO_REPORT)
        return str(make())

    def code():
        return in_code("make_report", "make_report()") if make else ""

    return Step(page, "report", "The report", draw, needs="effect", code=code, make=press)
