"""The desk as a page: what its cards share, and one card for each question a teacher has about the class."""

from pathlib import Path

import traitlets

from kit.coursework import keep_unchanged
from kit.desk import bringing, concepts, running, thinking
from kit.desk.sheets import sheets_card
from kit.desk.collecting import collect, Collected
from kit.desk.pooling import pool_runs, SWAPPED
from kit.faults import Fault
from kit.storage import here
from kit.widgets.cards import keeping_of

CLASS = "class"  # the folder beside the notebook that holds what the class handed in
STOOD = "desk.stood"


def class_desk():
    """The teacher's desk: `desk.bring_in()`, `desk.unread()`, `desk.runs()` and so on, a card each.

    It reads all that lies in the folder `class` beside the notebook: hand-ins, plain files, zips and folders of either. What the teacher
    says about how vessels and thermometers stood is kept beside the notebook.
    """
    desk = Desk()
    desk.read()
    return desk


class Desk(traitlets.HasTraits):
    """What the cards of the desk share. Made by `class_desk`; observe `turn` to hear that something has changed."""

    turn = traitlets.Int(0)

    def __init__(self):
        self.collected, self.effect, self.trouble = Collected(), None, ""
        self.book = keeping_of("desk")
        super().__init__()

    def take(self, name, data, more=0):
        """Keep one file in the folder `class`, unchanged; read the folder anew once no `more` are coming."""
        Path(CLASS).mkdir(exist_ok=True)
        keep_unchanged(name, data, CLASS)
        if not more:
            self.read()

    def read(self):
        """Read the folder `class` anew and work everything out from the files."""
        self.trouble = ""
        try:
            self.collected = collect(CLASS, here()) if Path(CLASS).is_dir() else Collected()
        except Fault as fault:
            self.collected, self.trouble = Collected(), str(fault)
        self.pool()

    def pool(self):
        """Pool the runs, with what is known of how they stood."""
        try:
            self.effect = pool_runs(self.collected, self.swapped, self.own_thermometers) if self.collected.runs else None
        except Fault as fault:
            self.effect, self.trouble = None, str(fault)
        self.turn += 1

    @property
    def stood(self):
        """What was said last about how runs stood: {first part of the hash of a run: 'swapped' or 'usual'}, and 'thermometers'."""
        latest = self.book.kept.latest(STOOD, "decided")
        return latest.content if latest else {}

    @property
    def swapped(self):
        """The names of the runs whose vessels had changed places."""
        return tuple(made.name for made in self.collected.runs if self.stood.get(made.key) == SWAPPED)

    @property
    def own_thermometers(self):
        """Was it said that each group had thermometers of its own?"""
        return self.stood.get("thermometers") == "own"

    def tell(self, stood):
        """Keep what is said about how the runs stood, and pool them anew."""
        self.book.add(STOOD, "decided", **stood)
        self.pool()

    def bring_in(self):
        """The class's files come in."""
        return bringing.bring_card(self)

    def unread(self):
        """What could not be read, why, and whom to ask."""
        return bringing.unread_card(self)

    def runs(self):
        """Each run's chart, windows and cautions; those to look at again are open."""
        return running.runs_card(self)

    def pooled(self):
        """All groups together."""
        return running.pooled_card(self)

    def predictions(self):
        """What the class predicted and changed."""
        return thinking.predictions_card(self)

    def questions(self):
        """Which questions were missed first, the ideas behind that, and the hinge questions."""
        return thinking.questions_card(self)

    def notes(self):
        """What was written, without names, and two of them side by side."""
        return thinking.notes_card(self)

    def concepts(self):
        """The concept check: its sheets, a grid for what was answered, and what the class thought before and after."""
        return concepts.concepts_card(self)

    def pages(self):
        """The class page and the bench sheets, to print."""
        return running.pages_card(self)

    def sheets(self):
        """Sheets for the teacher, the bench and the class, to print."""
        return sheets_card(self)
