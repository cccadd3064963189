"""One step of the page for own runs: a card, and below it what it shows."""

import ipywidgets

from kit.charts import chart, headless
from kit.faults import Fault
from kit.widgets.cards import step_link, text, view_of
from kit.widgets.intake import code_line, RunCard

NAMES = ("runs", "bring", "odd", "steady", "mark", "effect", "curve", "compare", "class", "causes", "note", "report", "hand")
STEPS = {name: place for place, name in enumerate(NAMES, start=1)}
MISSING = {
    "run": ("There is no run yet. Open one of yours, or bring one in.", "bring"),
    "effect": ("There is no effect yet. Place the windows, then keep the effect.", "effect"),
}
CODE = "{title}: the same in code"


class Step(ipywidgets.VBox):
    """A card that `draw()` fills with blocks; below it the widget, or the chart of the result, that `below()` gives (None: nothing); at the
    foot the code that does the same, as `code()` gives it ('': none).

    It is renewed whenever the `page` has changed. `needs` names what of the page must be there first ("run", "effect"): until then the card
    says what is missing. `presses` are the card's.
    """

    def __init__(self, page, key, title, draw, *, needs="", below=lambda: None, code=lambda: "", **presses):
        self._page, self._key, self._needs, self._draw, self._below, self._code = page, key, needs, draw, below, code
        self._thing, self._view = None, None
        self.card = RunCard(f"own.{key}", title, self._blocks, **presses)
        self.code = RunCard(f"own.{key}.code", CODE.format(title=title), lambda: [code_line("code", "", self._line)])
        super().__init__([self.card])
        self.renew()
        page.observe(self.renew, "turn")

    def renew(self, _change=None):
        """Draw the cards anew; make what is between them anew, if it is of something else now."""
        self.card.redraw()
        thing = self._now(self._below)
        if thing is not self._thing:
            self._view = None if thing is None else view_of(f"own.{self._key}", lambda: picture(thing))
            self._thing = thing
        self.code.redraw()
        parts = (self.card, self._view, self.code if self._line else None)
        self.children = tuple(part for part in parts if part is not None)

    @property
    def _lacking(self):
        return bool(self._needs) and getattr(self._page, self._needs) is None

    @property
    def _line(self):
        return self._now(self._code) or ""

    def _now(self, make):
        """What `make()` gives; None while something is missing, or a Fault keeps it from that, which the card then tells."""
        try:
            return None if self._lacking else make()
        except Fault:
            return None

    def _blocks(self):
        if not self._lacking:
            return self._draw()
        words, step = MISSING[self._needs]
        return [text("missing", words), step_link("go", STEPS[step])]


def picture(thing):
    """A widget as it is; of anything else its chart, without the heading that says what the card has said."""
    if isinstance(thing, ipywidgets.Widget):
        return thing
    return headless(chart(thing))[-1]


def in_code(imports, *lines):
    """Code that does the same, with the import that it needs."""
    return "\n".join([*([f"from kit import {imports}"] if imports else []), *lines])
