"""The view of a class: a bar for each group, one for the class, one for a group more; who is left out stays in sight, with the reason."""

from functools import cache, partial

from kit.coursework import CLASS_CARD, CLASS_KIND, class_choices, kept_marks
from kit.faults import Fault
from kit.units import difference
from kit.widgets.board.answering import answer_of, ORDERS
from kit.widgets.board.members import APART, Class, class_from_runs, JOINED
from kit.widgets.board.thirty import FIRST, thirty
from kit.widgets.cards import keeping_of, Numbers
from kit.widgets.shared import Grip, LOOK, Pick, script, sheet, View

HELP = (
    "A row for each group. Take a tick away to leave a group out, and write why. Press a name to open its run. "
    "An open dot: this bar misses the class's mean. Dashed: the class's range before your last move."
)
OWN_HELP = " With its run you can say whether its vessels had changed places, and how wide their mouths are."
PAIRS = {APART: "one run a group", JOINED: "swap pairs joined"}
KNOCKED = {"Slate": "Its lamp was knocked, and the group noted it at once."}
LESSON, MOST_WORDS = "09", 200


class Marked:
    """A grip that holds names, each with a text: the groups left out, say, and why."""

    def __init__(self, name, known, start=None):
        self.name, self.known, self.start = name, known, start or {}

    def told(self):
        """What the browser needs to know of it."""
        return {"name": self.name, "start": self.start}

    def held(self, value):
        """`value` as {name: text}, in the order of the board. A Fault for a name that isn't on it."""
        strange = [name for name in value if name not in self.known]
        if strange:
            raise Fault(f"{self.name} names {strange[0]!r}, who is not on this board.")
        return {name: str(value[name])[:MOST_WORDS] for name in self.known if name in value}


def board_view(runs=None, *, windows=None, truth=False):
    """The board of a class: of what `read_class` gives, or a list of runs; without any, of the bundled class of eight.

    `windows`: {run name: `Windows`}; a run that isn't named has those that the learner marked, or the kit's. `truth`: the bundled class with its
    truth, which can be opened; up to thirty groups join it, and the second runs of half of them, with the vessels' places changed. Who was left
    out and why is kept with lesson 09, but for the class whose truth can be opened. A Fault where no run gives a number.
    """
    if runs is not None:
        class_ = class_from_runs(runs, {run.name: marks for run in runs if (marks := kept_marks(run))} | (windows or {}))
        told = len({each.facts.get("time") for each in class_.members}) > 1  # or the order would change nothing
        orders = ("name", "size", "side", *(("time",) if told else ()), "mouth")
        turned = Marked("turned", [run.name for each in class_.members for run in each.runs])
        return BoardView(class_, [*_hands(class_, orders), turned, Marked("mouths", _names(class_))], kept=True, pairs=JOINED)
    if truth:
        return BoardView(thirty(), [*_truths(), *_hands(thirty(), ORDERS, KNOCKED)], kept=False)
    eight = first_eight()
    return BoardView(eight, _hands(eight, ("name", "size", "time", "mouth")), kept=True)


@cache
def first_eight():
    """The bundled class as `example_class` has it, its truth closed."""
    whole = thirty()
    return Class(whole.name, whole.members[:FIRST], whole.run_of)


def _truths():
    return [
        Grip("groups", "groups in the class:", 3, len(thirty().members), FIRST),
        Pick("pairs", "What counts", PAIRS, APART),
        Pick("truth", "The truth is", {"closed": "closed", "open": "open"}, "closed"),
    ]


def _hands(class_, orders, left_out=None):
    names = _names(class_)
    return [
        Pick("order", "The groups stand", {order: ORDERS[order] for order in orders}, "name"),
        Pick("opened", "Run", {"": "none", **{name: name for name in names}}, ""),
        Marked("left_out", names, left_out),
    ]


def _names(class_):
    return tuple(each.name for each in class_.members)


class BoardView(View):
    """A class on its board. Made by `board_view`."""

    _esm, _css = script("board/board"), sheet(*LOOK, "board/board")

    def __init__(self, class_, grips, *, kept, **fixed):
        self.class_, self._keeping = class_, keeping_of(LESSON) if kept else None
        super().__init__(f"The class {class_.name}", grips, partial(answer_of, class_, **fixed), help=HELP + (OWN_HELP if kept and fixed else ""))
        if kept:
            self._take_up()
            self.observe(self._keep, "values")

    def numbers(self):
        """What the lesson's cards ask, of the bundled class."""
        return of_the_bundled()

    @property
    def choices(self):
        """Who is left out here and why, which runs had their vessels' places changed, and what was written of mouths, as they are kept."""
        return {"left_out": self.values["left_out"], "turned": list(self.values.get("turned", ())), "mouths": self.values.get("mouths", {})}

    def _take_up(self):
        """Go on with what was decided about this class before, of those who are still in it."""
        for told in class_choices(self._keeping.kept, self.class_.name):
            before = {"left_out": dict(told.left_out), "turned": dict.fromkeys(told.turned, ""), "mouths": dict(told.mouths)}
            known = {name: grip.known for name, grip in self._grips.items() if name in before}
            self.move(**{name: {each: why for each, why in before[name].items() if each in known[name]} for name in known})

    def _keep(self, change):
        if any(change.old.get(key) != change.new.get(key) for key in ("left_out", "turned", "mouths")):
            self._keeping.add(CLASS_CARD, CLASS_KIND, name=self.class_.name, **self.choices)


@cache
def of_the_bundled():
    """`Numbers` for the cards: of the eight groups, and of the thirty without the one whose lamp was knocked."""
    names, whole = _names(thirty()), thirty()
    rest = tuple(name for name in names if name not in KNOCKED)
    eight, few, many, home = (
        whole.effect(*asked) for asked in ((names[:FIRST], APART), (rest[: FIRST - 1], APART), (rest, APART), (rest, JOINED))
    )
    held = sum(share.warming.holds(eight.mean.value) for share in eight.shares)
    off = {name: abs(each.mean.value - whole.truth) for name, each in (("few", few), ("many", many), ("home", home))}
    moved = "right" if many.mean.holds(whole.truth) else "better" if off["many"] < 0.75 * off["few"] else "far"
    knocked = next(share for share in eight.shares if share.name in KNOCKED)
    told = {"mean": eight.mean, "next": eight.next_group, "few": few.mean, "many": many.mean, "home": home.mean, "slate": knocked.warming}
    texts = {name: each.value_text for name, each in told.items()} | {f"{name}_range": each.range for name, each in told.items()}
    texts |= {f"off_{name}": difference(each, 2) for name, each in off.items()} | {"held": f"{held} of {FIRST}", "truth": difference(whole.truth, 2)}
    weights = [100 * share.weight for share in eight.shares]
    texts |= {"lightest": f"{min(weights):.0f} %", "heaviest": f"{max(weights):.0f} %"}
    return Numbers({"held": held, "moved": moved, "spread": few.spread.value}, texts)
