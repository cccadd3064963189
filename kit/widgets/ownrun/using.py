"""What the kept effect is good for: its curve, its place beside other runs and in the class, and what could have caused it."""

from functools import lru_cache
from pathlib import Path

from kit.analysis.classes import class_effect
from kit.analysis.comparison import compare
from kit.analysis.curve import fit_warming
from kit.analysis.effect import paired_effect, suggest_windows
from kit.coursework import decided_in_code, decisions_of, kept_windows, own_runs, read_as_recorded, read_own
from kit.examples import example_class, reference_run
from kit.faults import Fault
from kit.intake import code_for
from kit.intake.classes import read_class
from kit.records import csv_text
from kit.settings import class_settings
from kit.storage import write_atomically
from kit.units import stated
from kit.widgets.cards import bullets, buttons, choices, text
from kit.widgets.ownrun.measuring import windows_in_code
from kit.widgets.ownrun.step import in_code, Step

REFERENCE, CLASS, EXAMPLE = "reference", "class", "example"
MARGINS_C = (0.1, 0.2, 0.3, 0.5, 1.0)
SAME_KIND = "Ask first: same kind of vessel, same mouth, same depth of gas, same lamp? If not, a difference tells you little."
CLASS_CODE = {
    CLASS: ("class_effect, read_class", f'class_effect(read_class("{CLASS}"))'),
    EXAMPLE: ("class_effect, example_class", "class_effect([*example_class(), run])"),
}
JOIN = f"Put the files of the other groups into the folder {CLASS}, beside this page. Your button adds yours."


def curve_step(page):
    """The warming curve through the readings of the kept effect."""

    def draw():
        curve = _curve(page.effect)
        return [text("curve", curve.pace, tone="kept"), text("pattern", curve.diagnosis, tone="quiet")]

    def code():
        return in_code("fit_warming", "fit_warming(run, windows)")

    return Step(page, "curve", "The warming curve", draw, needs="effect", below=lambda: _curve(page.effect), code=code)


@lru_cache(maxsize=2)
def _curve(effect):
    return fit_warming(effect.run, effect.windows)


def compare_step(page):
    """The kept effect beside the reference run or another run of the learner's, with a margin chosen beforehand."""

    def result():
        asked = page.kept("compare", "asked")
        return asked and _comparison(page.effect, _other(asked["beside"]), asked["margin_c"])

    def draw():
        asked, others = page.kept("compare", "asked"), [own for own in own_runs() if own.path != page.own.path and kept_windows(own)]
        options = [(REFERENCE, "the kit's reference run (invented)"), *((own.file, f"my run {own.file}") for own in others)]
        margin = str(asked.get("margin_c", class_settings()["margin_c"] or ""))
        form = [
            text("same", SAME_KIND, tone="quiet"),
            choices("beside", "Beside which run?", options, asked.get("beside", REFERENCE)),
            choices("margin", "Up to which difference would you call them the same?", _margins(), margin, across=True),
            buttons("do", ("compare", "Compare")),
        ]
        found = result()
        return [*form, text("verdict", str(found), tone="kept"), text("why", found.reason, tone="quiet")] if found else form

    def code():
        asked = page.kept("compare", "asked")
        return _comparing_code(asked["beside"], asked["margin_c"]) if asked else ""

    def press(values):
        if not values.get("margin"):
            return "Choose the margin first, before you look."
        _comparison(page.effect, _other(values["beside"]), float(values["margin"]))  # a Fault here says why the two can't be compared
        page.book.add("compare", "asked", beside=values["beside"], margin_c=float(values["margin"]))
        return ""

    return Step(page, "compare", "Beside another run", draw, needs="effect", below=lambda: result() or None, code=code, compare=press)


def _margins():
    """(value, words) of the margins to choose from, the class's own among them."""
    return [(f"{each}", stated(each)) for each in sorted({*MARGINS_C, class_settings()["margin_c"] or MARGINS_C[0]})]


def _comparing_code(beside, margin):
    compared = f"compare(effect, other, margin={margin})"
    if beside == REFERENCE:
        lines = "other = reference_run()", "other = paired_effect(other, suggest_windows(other))"
        return in_code("compare, reference_run, suggest_windows", *lines, compared)
    return in_code("compare, read_run, Windows", *effect_in_code(_own(beside), "other"), compared)


def effect_in_code(own, name):
    """The lines that work out the kept effect of another run of the learner's, called `name`."""
    read = code_for(own.file, own.keywords).replace("run = ", f"{name} = ", 1)
    out = decided_in_code(read_as_recorded(own), decisions_of(own.kept), name)
    return read, *out, windows_in_code(kept_windows(own), "theirs"), f"{name} = paired_effect({name}, theirs)"


@lru_cache(maxsize=2)
def _comparison(effect, other, margin):
    return compare(effect, other, margin=margin)


def _other(beside):
    """The effect to lay beside: that of the reference run, or the one kept for another run."""
    if beside == REFERENCE:
        return _reference()
    return effect_kept(_own(beside))


def effect_kept(own):
    """The effect that was kept for one of the learner's runs."""
    return _own_effect(own.file, own.path.stat().st_mtime_ns)


@lru_cache(maxsize=1)
def _reference():
    run = reference_run()
    return paired_effect(run, suggest_windows(run))


@lru_cache(maxsize=4)
def _own_effect(file, _written_ns):
    own = _own(file)
    return paired_effect(read_own(own), kept_windows(own))


def _own(file):
    own = next((each for each in own_runs() if each.file == file), None)
    if own is None or kept_windows(own) is None:
        raise Fault(f"The run {file} has no kept effect any more. Choose another run.")
    return own


def class_step(page):
    """The run among those of the class: the folder `class`, or the eight invented groups."""

    def result():
        added = page.kept("class", "added")
        return added and _class_effect(added["to"], page.run, _stamp(added["to"]))

    def draw():
        added = page.kept("class", "added")
        options = [(CLASS, f"my class: the folder {CLASS}"), (EXAMPLE, "the kit's eight groups (invented)")]
        form = [text("join", JOIN, tone="quiet"), choices("to", "To which class?", options, added.get("to", CLASS)), buttons("do", ("add", "Add my run"))]
        return [*form, *_pooled(result())] if added else form

    def code():
        imports, line = CLASS_CODE[page.kept("class", "added")["to"]] if page.kept("class", "added") else ("", "")
        return line and in_code(imports, line)

    def add(values):
        if values["to"] == CLASS:
            write_atomically(Path(CLASS, f"{page.run.name}.csv"), csv_text(page.run))
        page.book.add("class", "added", to=values["to"])
        return ""

    return Step(page, "class", "Among the class", draw, needs="effect", below=lambda: result() or None, code=code, add=add)


def _pooled(effect):
    out = [bullets("out", "Left out", [f"{name}: {why}" for name, why in effect.left_out])] if effect.left_out else []
    same = text("windows", "For a fair look at all groups, every run's windows are those that the kit suggests.", tone="quiet")
    return [text("mean", str(effect), tone="kept"), same, *out]


def _stamp(to):
    """What tells whether the class has changed: the files in its folder, with their times."""
    files = sorted(Path(CLASS).rglob("*")) if to == CLASS else []
    return tuple((path.as_posix(), path.stat().st_mtime_ns) for path in files)


@lru_cache(maxsize=1)
def _class_effect(to, run, _stamp):
    return class_effect(read_class(CLASS) if to == CLASS else [*example_class(), run])
