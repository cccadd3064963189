"""The window marker: drag three windows over a run, and the number follows."""

from math import isfinite

import numpy as np
import traitlets
from anywidget import AnyWidget

from kit.analysis.effect import change_of, difference_levels, gas_start, misplaced, paired_effect, quick_warming
from kit.faults import Fault
from kit.coursework import keep_marks, marks_made_here
from kit.records import Windows
from kit.storage import here
from kit.units import difference
from kit.widgets.marker.history import History
from kit.widgets.marker.placing import refuse_outside, too_few, too_wide
from kit.widgets.shared import picture_of, script, sheet, told

UNPLACED = "Nobody has placed these windows yet. Move all three to where you think they belong."


def mark_windows(run, *, start=None, folder="."):
    """A `WindowMarker` for `run`. It begins where this run's marks were left in this notebook, else at `start`, else plainly not right.

    Marks are kept beside the notebook, in `folder`, at every change, for each notebook its own. `marker.windows` are the `Windows` as they are now;
    `marker.observe(f, "windows")` hears of every move, and `marker.effect` is the `Effect` of windows that rest, else None.
    `run` may be a card that chooses one (`choose_run`): the marker then goes over to the run that is chosen.
    """
    chooser = run if hasattr(run, "observe") else None
    marker = WindowMarker(run.run if chooser else run, start, here(folder))
    if chooser:
        chooser.observe(lambda change: marker.take(change.new), "run")
    return marker


def marks_or_trouble(run, folder):
    """The marks kept for `run` (or None), and a sentence when there were some that could not be read."""
    try:
        return marks_made_here(run, folder), ""
    except Fault as fault:
        return None, str(fault)


def starting_windows(run):
    """Windows at the very beginning, where no answer lies: one minute each in the first five, closer in a short record."""
    unit = min(max(1, run.step_s / 60), run.minutes[-1] / 20)
    return Windows((0.5 * unit, 1.5 * unit), (2 * unit, 3 * unit), (3.5 * unit, 4.5 * unit))


class WindowMarker(AnyWidget):
    """Three windows on the chart of one run, and the effect that they give. Made by `mark_windows`."""

    _esm = script("marker/marker")
    _css = sheet("shared/page/look", "marker/marker")
    times = traitlets.Bytes().tag(sync=True)
    lines = traitlets.Bytes().tag(sync=True)
    readings = traitlets.Bytes().tag(sync=True)
    picture = traitlets.Dict().tag(sync=True)
    edges = traitlets.List(traitlets.Float()).tag(sync=True)
    answer = traitlets.Dict().tag(sync=True)
    windows = traitlets.Instance(Windows)
    effect = traitlets.Any(None, allow_none=True)

    def __init__(self, run, start, folder):
        self.folder, self._hand = folder, None
        trouble = self._begin(run, start)
        super().__init__(windows=self._history.now, **_picture(run))
        self.on_msg(self._heard)
        self.tell(trouble)

    def take(self, run, start=None):
        """Go over to `run`: its picture, and its marks or `start`."""
        with self.hold_sync():
            trouble, same = self._begin(run, start), self.windows == self._history.now
            for name, value in {**_picture(run), "windows": self._history.now}.items():
                self.set_trait(name, value)
            if same:  # as windows, though of another run
                self._follow()
            self.tell(trouble)

    def _begin(self, run, start):
        """Set out with the marks kept for `run`, else at `start`, else plainly not right. Gives a sentence on marks that can't be read."""
        kept, trouble = marks_or_trouble(run, self.folder)
        self.run, self.start = run, start or starting_windows(run)
        self.change = change_of(run) if gas_start(run) is not None else None
        self._history = History(kept or self.start)
        return trouble

    @property
    def misplaced(self):
        """A sentence on the window that misses the gas which the run recorded; '' when none does, or no gas was recorded."""
        return misplaced(self.windows, self.change)

    def tell(self, text):
        """Show one more sentence, if there is one, under the number until the windows move."""
        self.answer = {**self.answer, "trouble": text or self.answer["trouble"]}

    @traitlets.validate("windows")
    def _inside(self, proposal):
        refuse_outside(self.run, proposal.value)
        return proposal.value

    @traitlets.observe("windows")
    def _follow(self, _change=None):
        """Whoever moved the windows: show them. Code settles them at once, a hand when it rests."""
        self.edges = [round(edge, 3) for edge in self.windows.seconds]
        self.effect = None
        self._history = self._history.record(self.windows, self._hand or object())
        if not self._hand:
            self.answer = self._settled()

    def _heard(self, _widget, asked, _buffers):
        """A view's question: do what it asks, and answer whatever came of it, so that the view may ask again."""
        with self.hold_sync():
            trouble = told(self._obey)(asked)
            answer = self._reading() if asked["kind"] == "move" else self._settled()
            self.answer = {**answer, "to": asked["number"], "trouble": trouble or answer["trouble"]}

    def _obey(self, asked):
        self._hand = asked["gesture"]
        try:
            self.windows = self._wanted(asked)
        finally:
            self._hand = None

    def _wanted(self, asked):
        if asked["kind"] in ("move", "rest"):
            return Windows.of_seconds(asked["edges"])
        if asked["kind"] == "again":
            return self.start
        self._history = self._history.undone() if asked["kind"] == "undo" else self._history.redone()
        return self._history.now

    def _settled(self):
        """The hand rests: keep the marks, then work out the effect."""
        trouble = told(self._keep)()
        sentence = told(self._measure)()
        reading = self._reading()
        return {**reading, "settled": True, "sentence": sentence, "condition": self._condition(), "trouble": trouble or reading["trouble"]}

    def _keep(self):
        if self._history.past or self._history.future:
            keep_marks(self.run, self.windows, self.folder)

    def _measure(self):
        self.effect = paired_effect(self.run, self.windows)
        return str(self.effect)

    def _condition(self):
        has_range = self.effect and isfinite(self.effect.warming.value)
        return self.effect.condition if has_range else ""

    def _reading(self):
        """What can be said at once, at every move."""
        levels = self._levels()
        return {
            "value": told(self._value)() if levels else "no number yet",
            "levels": levels,
            "settled": False,
            "trouble": self._unplaced() or self._amiss(),
            "undo": bool(self._history.past),
            "redo": bool(self._history.future),
        }

    def _amiss(self):
        return too_few(self.run, self.windows) or self.misplaced or too_wide(self.run, self.windows)

    def _unplaced(self):
        return UNPLACED if self.windows == starting_windows(self.run) else ""

    def _value(self):
        if self.effect:
            return self.effect.warming.value_text
        return difference(round(quick_warming(self.run, self.windows), 9), 2)

    def _levels(self):
        try:
            return list(difference_levels(self.run, self.windows))
        except Fault:
            return None


def _picture(run):
    """The traits that change with the run: its picture, and the times and differences to the last digit, for the browser's own means."""
    exact = np.stack([run.readings.index, run.difference()]).astype("<f8")
    return {**picture_of(run), "readings": exact.tobytes()}
