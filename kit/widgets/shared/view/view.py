"""What every lesson's own view stands on: values under the learner's hand, one pure function that answers, the rest is drawn.

A view is a folder `kit/widgets/NAME/` with three files; `kit/widgets/energy/` is the one to copy from.

`NAME.py`: the grips, the function, and a class that names its script:

    GRIPS = [Grip("lamp_w", "lamp", 1, 8, 4, step=0.1, unit="W"), Pick("walls", "The walls are", {"glass": "glass", "film": "thin film"}, "glass")]

    def answer(lamp_w, walls):
        return {"sentence": "It settles 7 °C above the room.", "numbers": [("above the room", "7.0 °C")],
                "table": rows("…", ["minute", "°C"], [...]), "lines": [line(minutes, warmth, "treated", "with glass")]}

    class LampView(View):
        _esm, _css = script("lamp/lamp"), sheet(*LOOK)

    def lamp_view():
        return LampView("The lamp", GRIPS, answer, help="Drag the lamp.")

`answer` gets the values by name and gives a dict. The view itself shows `sentence` (also read aloud when the hand rests), `numbers`, `table`
and gives `picture` (else the sentence) to those who listen. All else in the dict is the script's. A Fault becomes words in the view.

`NAME.js`: `export default { render: viewOf(v => ({ parts: […], show(answer, values) { … } })) }`, built of `shared/drawing/`: `plot` (lines,
ghosts, bands, levels, dots over axes; `upright(grip)` on it), `drawing` (SVG with `hand(grip, …)`), `numberline`; and of `shared/page/`. A grip
that no part takes into its hand gets a slider, or radio buttons for a Pick, by itself. Nothing is computed in the script.
"""

from dataclasses import asdict, dataclass, replace
from math import isfinite

import numpy as np
import traitlets
from anywidget import AnyWidget

from kit.faults import Fault
from kit.units import difference_in, marked, temperature_in, unit
from kit.widgets.shared.telling import told
from kit.words import listed

LOOK = ("shared/page/look", "shared/view/view")  # the sheets of every view; a view may add its own
MOST_POINTS = 300


@dataclass(frozen=True)
class Grip:
    """A number that the learner moves: keyword, words for it, lowest, highest and first value, the smallest step, the unit.

    °C is shown in the unit that the class reads; `on_scale`: a reading of a thermometer, not a difference.
    """

    name: str
    label: str
    low: float
    high: float
    start: float
    step: float = 1
    unit: str = ""
    on_scale: bool = False

    def told(self):
        """What the browser needs to know of it."""
        places = max(0, -int(np.floor(np.log10(self.step) + 1e-9)))
        turned = {"unit": unit(), "factor": difference_in(1.0), "zero": temperature_in(0.0) if self.on_scale else 0.0} if self.unit == "°C" else {}
        return {**asdict(self), "places": places, **turned}

    def held(self, value):
        """`value` as this grip can hold it: within its ends. A Fault for anything but a number."""
        if isinstance(value, bool) or not isinstance(value, (int, float)) or not isfinite(value):
            raise Fault(f"{self.name} is a number from {self.low:g} to {self.high:g} {self.unit}".rstrip() + f", not {value!r}.")
        return min(max(value, self.low), self.high)


@dataclass(frozen=True)
class Pick:
    """One of several that the learner picks: keyword, the question, {value: words}, and what is picked at first. A temperature in the words
    is marked, {c:0.1}, so that the class reads it in its unit (`kit.units.marked`)."""

    name: str
    label: str
    options: dict
    start: str

    def told(self):
        """What the browser needs to know of it."""
        return {**asdict(self), "options": [[value, marked(words)] for value, words in self.options.items()]}

    def held(self, value):
        """`value`, if it is one of the options. A Fault names them."""
        if value not in self.options:
            raise Fault(f"{self.name} is {listed(map(repr, self.options), 'or')}, not {value!r}.")
        return value


def starting(grips, **values):
    """The same grips, with these values at first; a number beyond a grip's end moves that end."""
    first = {each.name: replace(each, start=values[each.name]) for each in grips if each.name in values}
    reach = {name: replace(each, high=max(each.high, each.start)) if isinstance(each, Grip) else each for name, each in first.items()}
    return [reach.get(each.name, each) for each in grips]


class View(AnyWidget):
    """A view of a lesson; see the first lines of this module. `view.values` are the grips' values by name, `view.answer` what is shown."""

    title = traitlets.Unicode().tag(sync=True)
    help = traitlets.Unicode().tag(sync=True)
    grips = traitlets.List().tag(sync=True)
    values = traitlets.Dict().tag(sync=True)
    answer = traitlets.Dict().tag(sync=True)
    unit = traitlets.Unicode().tag(sync=True)  # that the class reads; all temperatures in `answer` and `values` are in °C

    def __init__(self, title, grips, answer, help=""):
        self._grips, self._answer = {each.name: each for each in grips}, told(answer)
        start = {each.name: each.start for each in grips}
        super().__init__(title=title, unit=unit(), help=help, grips=[each.told() for each in grips], values=start, answer=self._shown(start))
        self.observe(lambda change: setattr(self, "answer", self._shown(change.new)), "values")
        self.on_msg(self._heard)

    def move(self, **values):
        """Set some of the values, as a hand would. A Fault for a name or a value that the view doesn't know."""
        self.values = {**self.values, **values}

    @traitlets.validate("values")
    def _held(self, proposal):
        unknown = [name for name in proposal.value if name not in self._grips]
        if unknown:
            raise Fault(f"This view has no {unknown[0]!r}. It has {listed(self._grips)}.")
        return {name: grip.held(proposal.value.get(name, grip.start)) for name, grip in self._grips.items()}

    def _heard(self, _view, asked, _buffers):
        """The hand moved: take its values, and answer whatever came of it, so that the next may be asked."""
        with self.hold_sync():
            trouble = told(self.move)(**asked["values"])
            self.answer = {**self.answer, **({"trouble": trouble} if trouble else {}), "to": asked["number"]}

    def _shown(self, values):
        answer = self._answer(**values)
        return {"trouble": answer} if isinstance(answer, str) else answer


def line(x, y, look="treated", name="", places=3):
    """A line for a plot: at most 300 points, rounded. Looks: treated, control, difference, gas; `name` stands at its end."""
    x, y = (np.asarray(each, float) for each in (x, y))
    kept = np.unique(np.linspace(0, len(x) - 1, min(len(x), MOST_POINTS)).round().astype(int))
    return {"x": x[kept].round(places).tolist(), "y": y[kept].round(places).tolist(), "look": look, "name": name}


def rows(caption, head, cells):
    """A table for those who read better than they see: its name, its columns with units, its rows of texts."""
    return {"caption": caption, "head": list(head), "rows": [[str(cell) for cell in row] for row in cells]}
