"""The whole job on one's own run, a card for each step; where the learner was is in the run's own file of answers."""

from functools import lru_cache

import traitlets

from kit.analysis.effect import paired_effect
from kit.coursework import decided_run, decisions_of, kept_marks, OWN_CARD, own_runs, read_as_recorded, remember
from kit.faults import Fault
from kit.records import Windows
from kit.widgets.cards import keeping_at
from kit.widgets.marker import mark_windows
from kit.widgets.ownrun import bringing, causing, judging, measuring, using, writing
from kit.widgets.writeup import hand_in_card


def own_run():
    """The page for a learner's own run: `own.runs()`, `own.bring_in()`, `own.mark()` and so on, a card for each step of the job.

    It opens at the run that was open last, with all that was decided about it. `own.run` is the `Run` with the odd places as decided,
    `own.effect` the `Effect` that was kept, `own.marker` the window marker; each is None as long as there is none.
    """
    page = OwnPage()
    runs = own_runs()
    if runs:
        page.open(runs[0])
    return page


class OwnPage(traitlets.HasTraits):
    """What the cards of the page share. Made by `own_run`; observe `turn` to hear that something has changed."""

    turn = traitlets.Int(0)

    def __init__(self):
        self.own = self.run = self.effect = self.marker = self.book = self.raw = None
        self.trouble = ""
        super().__init__()

    def open(self, own):
        """Go over to this run of the learner's, as it was left. What keeps it from being read is told in `trouble`."""
        if self.book:
            self.book.unobserve(self._follow, "kept")
        self.own, self.raw, self.trouble = own, None, ""
        self.book = keeping_at(own.path)
        try:
            self.raw = read_as_recorded(own)
            self.book.add(OWN_CARD, "opened")
        except Fault as fault:
            self.trouble = str(fault)
        self.book.observe(self._follow, "kept")
        self._follow()

    def take(self, file, keywords):
        """Open the run in `file`, which lies beside the notebook and is read with `keywords`."""
        path = remember(file, keywords)
        self.open(next(own for own in own_runs() if own.path == path))

    def kept(self, card, kind):
        """What was kept last of a card of this run, as a dict; empty if nothing was."""
        latest = self.book.kept.latest(card, kind) if self.book else None
        return latest.content if latest else {}

    def _follow(self, _change=None):
        """Work out anew what follows from what is kept, and tell the cards."""
        self.run = self.raw and decided_run(self.raw, decisions_of(self.book.kept))
        windows = self.kept("effect", "kept").get("windows")
        self.effect = self.run and windows and _effect(self.run, Windows(*windows))
        self._follow_marks()
        self.turn += 1

    def _follow_marks(self):
        """Let the marker go over to another run, or to the same with other decisions."""
        if self.run is None or self.marker and self.marker.run is self.run:
            return
        start = self.effect.windows if self.effect else _marked_elsewhere(self.run)
        if self.marker:
            return self.marker.take(self.run, start)
        self.marker = mark_windows(self.run, start=start)
        self.marker.observe(self._marked, "answer")

    def _marked(self, change):
        if change.new["settled"]:
            self.turn += 1

    def runs(self):
        """The learner's runs, to open one again."""
        return bringing.runs_step(self)

    def bring_in(self):
        """Bring a run in: a file or a pasted table, by hand, or while it is being recorded."""
        return bringing.bring_step(self)

    def odd_places(self):
        """The odd places of the run, to decide each."""
        return judging.odd_step(self)

    def steady(self):
        """Was the difference steady before the change?"""
        return judging.steady_step(self)

    def mark(self):
        """The window marker."""
        return measuring.mark_step(self)

    def measure(self):
        """The effect of the windows as they are now, to keep it."""
        return measuring.effect_step(self)

    def curve(self):
        """The warming curve of the effect that was kept."""
        return using.curve_step(self)

    def compare(self):
        """The effect beside that of the reference run, or of another run of the learner's."""
        return using.compare_step(self)

    def add_to_class(self):
        """The run among those of the class."""
        return using.class_step(self)

    def causes(self):
        """What could have warmed the treated vessel more."""
        return causing.causes_step(self)

    def note(self):
        """The learner's own words on this run."""
        return writing.note_step(self)

    def report(self):
        """The report on what is kept."""
        return writing.report_step(self)

    def hand_in(self):
        """The file for the teacher."""
        return hand_in_card()


@lru_cache(maxsize=4)
def _effect(run, windows):
    """The same effect for the same question, so that nothing is drawn anew that has not changed."""
    return paired_effect(run, windows)


def _marked_elsewhere(run):
    """The windows that the learner marked on this run last, in a lesson or here; None without any that can be read."""
    try:
        return kept_marks(run)
    except Fault:
        return None
