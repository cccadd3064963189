"""One step of the page for own runs: a card, and below it what it shows."""

import ipywidgets

from kit.charts import chart
from kit.faults import Fault
from kit.widgets.cards import step_link, text, view_of
from kit.widgets.intake import code_line, RunCard

STEPS = {"runs": 1, "bring": 2, "odd": 3, "steady": 4, "mark": 5, "effect": 6, "curve": 7, "compare": 8, "class": 9, "causes": 10, "note": 11, "report": 12}
MISSING = {
    "run": ("There is no run yet. Open one of yours, or bring one in.", "bring"),
    "effect": ("There is no effect yet. Place the windows, then keep the effect.", "effect"),
}
CODE = "The same in code"


class Step(ipywidgets.VBox):
    """A card that `draw()` fills with blocks, and below it the widget, or the chart of the result, that `below()` gives; None for nothing.

    It is renewed whenever the `page` has changed. `needs` names what of the page must be there first ("run", "effect"): until then the card
    says what is missing. `presses` are the card's.
    """

    def __init__(self, page, key, title, draw, *, needs="", below=None, **presses):
        self._page, self._needs, self._draw, self._below, self._thing = page, needs, draw, below or (lambda: None), None
        self.card = RunCard(f"own.{key}", title, self._blocks, **presses)
        super().__init__([self.card])
        self._key = key
        self.renew()
        page.observe(self.renew, "turn")

    def renew(self, _change=None):
        """Draw the card anew; make what is below it anew, if it is of something else now."""
        self.card.redraw()
        thing = None if self._lacking else told_of(self._below)
        if thing is not self._thing:
            self._thing = thing
            self.children = (self.card, *([] if thing is None else [view_of(f"own.{self._key}", lambda: picture(thing))]))

    @property
    def _lacking(self):
        return bool(self._needs) and getattr(self._page, self._needs) is None

    def _blocks(self):
        if not self._lacking:
            return self._draw()
        words, step = MISSING[self._needs]
        return [text("missing", words), step_link("go", STEPS[step])]


def told_of(below):
    """What `below` gives; None where a Fault keeps it from that, which the card then tells."""
    try:
        return below()
    except Fault:
        return None


def picture(thing):
    """A widget as it is; of anything else its chart."""
    return thing if isinstance(thing, ipywidgets.Widget) else chart(thing)


def in_code(imports, line, key="code"):
    """The block with a line of code that does the same, and the import that it needs."""
    return code_line(key, CODE, f"from kit import {imports}\n{line}")
