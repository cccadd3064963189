"""Which class a lesson works on: the bundled one, a folder or zip of the learner's class, or all runs of their own."""

from pathlib import Path

import ipywidgets
import traitlets

from kit.coursework import FOLDER_OF_MARKS, own_runs, read_own
from kit.faults import Fault
from kit.intake.classes import ClassRuns, read_class, RECORDS
from kit.widgets.cards import buttons, Card, choices, keeping_of, text, view_of
from kit.words import counted

BUNDLED, OWN, OWN_NAME, FEWEST_OWN = "bundled", "own", "of my own runs", 2
WORDS = {BUNDLED: "the harbour town school, eight groups (invented)", OWN: "my own runs, {} of them"}
NONE_YET = "To see your own class here, put its files into a folder beside this page, or bring them as a zip file. Then press the button."
GONE = "{name} can't be read: {why} This page works on the bundled class again."
KITS_OWN = (FOLDER_OF_MARKS, "runs")


def choose_class(card_id):
    """A card that lets the learner choose the class to work on; `card_id` is lesson and card: "09.class".

    `card.show(board_view)` makes a view of it, anew whenever another is chosen; the bundled class goes in as None. What was chosen is kept with
    the lesson's answers.
    """
    return ClassChooser(card_id, keeping_of(card_id.partition(".")[0]))


class ClassChooser(Card):
    """The choice of a class. Made by `choose_class`. `card.runs`: a `ClassRuns`, or None for the bundled class; a trait to observe."""

    runs = traitlets.Instance(ClassRuns, allow_none=True)

    def __init__(self, card_id, keeping):
        self.card_id, self._keeping = card_id, keeping
        self._source, runs, self._trouble = self._reopened()
        self.set_trait("runs", runs)
        super().__init__(card_id, "Which class?", self._drawn, choose=self._choose, look=lambda _: "")

    def show(self, make):
        """A view of `make(runs)`, made anew whenever another class is chosen."""
        box = ipywidgets.VBox()

        def fill(_change=None):
            box.children = (view_of(f"{self.card_id}.shown", lambda: make(self.runs)),)

        fill()
        self.observe(fill, "runs")
        return box

    def _reopened(self):
        """(source, runs, trouble) as they were left; the bundled class, if the learner's can't be read any more."""
        kept = self._keeping.kept.latest(self.card_id, "class")
        source = kept.content["source"] if kept else BUNDLED
        try:
            return source, class_from(source), ""
        except Fault as fault:
            return BUNDLED, None, GONE.format(name=source, why=fault)

    def _choose(self, values):
        source = values.get("class", self._source)
        runs = class_from(source)
        self._keeping.add(self.card_id, "class", source=source)
        self._source, self._trouble, self.runs = source, "", runs
        told = f"{counted(len(runs), 'run')} of the class {runs.name}" if runs else WORDS[BUNDLED]
        return f"From here on this page works on {told}."

    def _drawn(self):
        trouble = [text("trouble", self._trouble, tone="fault")] if self._trouble else []
        found = sources()
        if not found:
            now, none = text("now", f"This page works on {WORDS[BUNDLED]}."), text("none", NONE_YET, tone="quiet")
            return [*trouble, now, none, buttons("do", ("look", "Look for my class"))]
        options = [(BUNDLED, WORDS[BUNDLED]), *found]
        return [*trouble, choices("class", "Work on:", options, self._source), buttons("do", ("choose", "Work on this class"), ("look", "Look again"))]


def sources():
    """((source, words), …): the folders and zips beside this page that may hold a class, and the learner's own runs if there are several."""
    here, own = sorted(Path().iterdir()), len(own_runs())
    found = [(each.name, f"my class: the folder {each.name}") for each in here if each.is_dir() and _may_hold_a_class(each)]
    found += [(each.name, f"my class: the file {each.name}") for each in here if each.suffix.lower() == ".zip"]
    return [*found, *([(OWN, WORDS[OWN].format(own))] if own >= FEWEST_OWN else [])]


def _may_hold_a_class(folder):
    if folder.name.startswith(".") or folder.name in KITS_OWN:
        return False
    return any(each.suffix.lower() in RECORDS for pattern in ("*", "*/*") for each in folder.glob(pattern))


def class_from(source):
    """The `ClassRuns` of a source; None for the bundled class. A Fault where it can't be read."""
    if source == BUNDLED:
        return None
    if source == OWN:
        return ClassRuns(OWN_NAME, tuple(read_own(each) for each in own_runs()))
    return read_class(source, progress=lambda _: None)
