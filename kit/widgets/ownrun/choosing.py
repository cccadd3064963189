"""Which run a lesson works on: its bundled one, or one of the learner's own."""

import ipywidgets
import traitlets

from kit.coursework import own_runs, read_own, remember
from kit.examples import example_run
from kit.faults import Fault
from kit.records import Run
from kit.widgets.cards import buttons, Card, choices, keeping_of, text, view_of

BUNDLED, OWN_PAGE = "bundled", "your-own-run"
NONE_YET = f"You can work on a run of your own here. Bring it in on the page {OWN_PAGE}, then press the button."
GONE = "Your run {file} can't be read: {why} This page works on {name} again."


def choose_run(card_id):
    """A card that lets the learner choose between a lesson's bundled run and their own. `card_id` is lesson and run: "00.basalt".

    `card.run` is the `Run` chosen now, and a trait to observe; `card.own` says whether it is the learner's. What was chosen is kept with
    the lesson's answers. `mark_windows(card)` goes over to another run by itself, and so does `card.show(chart)`.
    """
    lesson, _, name = card_id.partition(".")
    return RunChooser(card_id, example_run(name), keeping_of(lesson))


class RunChooser(Card):
    """The choice of a run. Made by `choose_run`."""

    run = traitlets.Instance(Run)

    def __init__(self, card_id, bundled, keeping):
        self.card_id, self.bundled, self._keeping = card_id, bundled, keeping
        self._file, run, self._trouble = self._reopened()
        self.set_trait("run", run)
        super().__init__(card_id, "Which run?", self._drawn, choose=self._choose, look=lambda _: "")

    @property
    def own(self):
        """Is the run that is chosen now one of the learner's own?"""
        return self._file != BUNDLED

    def show(self, make):
        """A view of `make(run)` (a chart, a result, a widget), made anew whenever another run is chosen."""
        box = ipywidgets.VBox()

        def fill(_change=None):
            box.children = (view_of(f"{self.card_id}.shown", lambda: make(self.run)),)

        fill()
        self.observe(fill, "run")
        return box

    def by_hand(self):
        """Sheets to type readings into. One that is used becomes a run of the learner's own, and the one that is chosen here."""
        from kit.widgets.ownrun.ways import hand_way  # with all that follows a logger, which a lesson without a sheet has no need of

        def take(file, keywords):
            remember(file, keywords)
            self._choose({"run": file})
            self.redraw()

        return hand_way(take)

    def _reopened(self):
        """(file, run, trouble) as they were left; the bundled run, if the learner's can't be read any more."""
        kept = self._keeping.kept.latest(self.card_id, "run")
        file = kept.content["file"] if kept else BUNDLED
        try:
            return file, self._read(file), ""
        except Fault as fault:
            return BUNDLED, self.bundled, GONE.format(file=file, why=fault, name=self.bundled.name)

    def _read(self, file):
        if file == BUNDLED:
            return self.bundled
        own = next((each for each in own_runs() if each.file == file), None)
        if own is None:
            raise Fault("it is not among your runs.")
        return read_own(own)

    def _choose(self, values):
        file = values.get("run", self._file)
        run = self._read(file)
        self._keeping.add(self.card_id, "run", file=file)
        self._file, self._trouble, self.run = file, "", run
        return f"From here on this page works on {run.name}."

    def _drawn(self):
        trouble = [text("trouble", self._trouble, tone="fault")] if self._trouble else []
        runs = own_runs()
        now = text("now", f"This page works on: {self.run}")
        if not runs:
            return [*trouble, now, text("none", NONE_YET, tone="quiet"), buttons("do", ("look", "Look for my runs"))]
        options = [(BUNDLED, f"{self.bundled.name}, the lesson's run ({self.bundled.kind})"), *((each.file, f"my run {each.file}") for each in runs)]
        pressed = buttons("do", ("choose", "Work on this run"), ("look", "Look for my runs again"))
        return [*trouble, now, choices("run", "Work on:", options, self._file), pressed]
