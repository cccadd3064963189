"""Setting a run up, watching it come in, and using it."""

from pathlib import Path

import ipywidgets

from kit.live import start_writing
from kit.records import csv_text
from kit.widgets.cards import buttons, choices
from kit.widgets.causes import CausesCard
from kit.widgets.live import follow
from kit.widgets.simulated.book import PAGE
from kit.widgets.simulated.setup import BENCHES, CHOICES, IN_WORDS, USUAL, BenchRun, mouth_cm

TIMES = 120  # as fast as a real bench
BEGUN = "The run has begun: ten minutes pass in five seconds. It is written to {name}.csv, beside this page."


class MakingStep(ipywidgets.VBox):
    """The form; once a run has begun, also its chart as it comes in, and the button to use it."""

    def __init__(self, book):
        self._book, self._made, self._live = book, None, None
        self._card = CausesCard(f"{PAGE}.setup", "Set up a run", self._form, start=self._start)
        whole = buttons("do", ("use", "Use this run, all of it"))
        self._using = CausesCard(f"{PAGE}.use", "When it is over", lambda: [whole], use=self._use)
        super().__init__([self._card])

    def _form(self):
        benches = [(str(each), f"mouths {mouth_cm(each):g} cm wide") for each in BENCHES]
        now = str(self._made.bench if self._made else self._book.bench or BENCHES[0])
        which = choices("bench", "Which bench? Each has a truth of its own.", benches, now, across=True)
        return [which, *map(self._asked, IN_WORDS), buttons("do", ("start", "Start the run"))]

    def _asked(self, name):
        legend, options = CHOICES[name]
        now = self._made.chosen[list(CHOICES).index(name)] if self._made else USUAL[name]
        return choices(name, legend, [(value, words) for value, (words, *_) in options.items()], now, across=True)

    def _start(self, values):
        self._stop()
        self._made = BenchRun(int(values["bench"]), self._book.count + 1, tuple(values[name] for name in CHOICES))
        path = start_writing(csv_text(self._made.run), Path(f"{self._made.name}.csv"), TIMES)
        self._live = follow(path, every_s=0.5)
        self.children = (self._card, self._live, self._using)
        return BEGUN.format(name=self._made.name)

    def _use(self, _values):
        self._stop()
        self.children = (self._card,)
        self._book.use(self._made)
        return ""

    def _stop(self):
        if self._live:
            self._live.close()
            self._live = None
