"""The windows of a run on the simulated bench, marked as those of any other run."""

import ipywidgets

from kit.widgets.cards import buttons, choices, text
from kit.widgets.causes import CausesCard
from kit.widgets.marker import mark_windows
from kit.widgets.simulated.book import PAGE

NO_RUN = "There is no run yet. Set one up above, and use it."


class MarkingStep(ipywidgets.VBox):
    """Which run to mark, and the marker on it: that made last, until another is chosen."""

    def __init__(self, book):
        self._book, self._count, self._made, self._marker = book, 0, None, None
        self._card = CausesCard(f"{PAGE}.mark", "Mark the windows", self._asked, mark=self._chosen)
        super().__init__([self._card])
        self._renew()
        book.follow(self._renew)

    def _renew(self):
        """Go over to a run that has come in."""
        if self._book.count != self._count:
            self._count = self._book.count
            self._turn(self._book.runs[-1])
        self._card.redraw()

    def _asked(self):
        if not self._made:
            return [text("none", NO_RUN)]
        options = [(each.name, f"bench {each.bench}, {each.words}") for each in self._book.runs]
        return [choices("run", "Mark which run?", options, self._made.name), buttons("do", ("mark", "Mark this run"))]

    def _chosen(self, values):
        self._turn(next(each for each in self._book.runs if each.name == values["run"]))
        return ""

    def _turn(self, made):
        self._made = made
        if self._marker:
            return self._marker.take(made.run)
        self._marker = mark_windows(made.run)
        self.children = (self._card, self._marker)
