"""The page with the simulated bench, a card for each step; what was set up and said is kept, and the runs are made of it again."""

from kit.coursework import read_card
from kit.widgets.cards import note_in
from kit.widgets.simulated.book import BenchBook, PAGE
from kit.widgets.simulated.judging import truth_card, WeighingCard
from kit.widgets.simulated.making import MakingStep
from kit.widgets.simulated.marking import MarkingStep


def simulated_bench():
    """The page with the simulated bench, a card for each step: `set_up()`, `mark()`, `weigh()`, `open()` and `note()`."""
    return BenchPage(BenchBook())


class BenchPage:
    """Made by `simulated_bench`. `bench.runs` are the runs of the bench that was used last, each with its `run` and `effect`."""

    def __init__(self, book):
        self._book = book

    @property
    def runs(self):
        """The runs of the bench that was used last, in order."""
        return self._book.runs

    def set_up(self):
        """Choose a bench and a set-up, watch the run come in, and use it."""
        return MakingStep(self._book)

    def mark(self):
        """The windows of a run of this bench."""
        return MarkingStep(self._book)

    def weigh(self):
        """What each cause can still be on this bench."""
        return WeighingCard(self._book)

    def open(self):
        """The truth of this bench, once the learner has said what made most."""
        return truth_card(self._book)

    def note(self):
        """The learner's own words."""
        name = f"{PAGE}.note"
        return note_in(self._book.keeping, name, name, read_card(name)[1])
