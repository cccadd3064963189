"""Before any window is set: the odd places of the run, each decided, and whether the difference was steady."""

from functools import lru_cache

from kit.analysis.effect import suggest_windows
from kit.analysis.steady import check_steady
from kit.coursework import decide_places, decided_in_code, decisions_of
from kit.faults import Fault
from kit.settings import class_settings
from kit.units import stated
from kit.widgets.cards import buttons, choices, text
from kit.widgets.intake import decision, odd_blocks
from kit.widgets.ownrun.step import in_code, Step

SPANS, TOLERANCES_C = [f"{minutes} min" for minutes in (3, 5, 10, 20)], (0.01, 0.02, 0.05)
WHEN = {"kept": "before your perturbation window", "seen": "before the change that the kit sees", "end": "at the end of the record"}


def odd_step(page):
    """Every odd place, one after the other: keep it, keep it with a flag, or leave it out with a reason."""

    def draw():
        return odd_blocks(page.raw, dict(decisions_of(page.book.kept)))

    def decide(values, alike=False):
        more, missing = decision(page.raw, dict(decisions_of(page.book.kept)), values, alike)
        if not missing:
            decide_places(page.book, more, values["choice"], values.get("reason", "").strip())
        return missing

    def again(_values):
        decide_places(page.book, [place for place, _ in decisions_of(page.book.kept)], "", "")
        return "Everything is open again."

    presses = {"decide": decide, "alike": lambda values: decide(values, True), "again": again}
    return Step(page, "odd", "Odd places", draw, needs="run", code=lambda: in_code("", *decided_in_code(page.raw, decisions_of(page.book.kept))), **presses)


def steady_step(page):
    """The drift of the difference before the change, judged against a tolerance."""

    def asked():
        kept = page.kept("steady", "asked")
        return kept.get("over_min", SPANS[2]), kept.get("tolerance", _tolerance(class_settings()["tolerance_c_per_min"]))

    def numbers():
        return [float(words.split()[0]) for words in asked()]

    def result():
        return _steady(page.run, *numbers(), _until(page)[0])

    def draw():
        over, tolerance = asked()
        where, found = _until(page)[1], result()
        wait = f"\nWaiting {found.wait_min} longer might have shown it." if found.wait_min and found.wait_min.high else ""
        return [
            choices("over_min", f"How many minutes {WHEN[where]}?", pairs(SPANS), over, across=True),
            choices("tolerance", "Which drift counts as none?", _tolerances(), tolerance, across=True),
            buttons("do", ("look", "Look")),
            text("verdict", f"{found}{wait}", tone="kept"),
        ]

    def code():
        over, tolerance = numbers()
        return in_code("check_steady", f"check_steady(run, over_min={over:g}, tolerance_c_per_min={tolerance:g}, until_min={_until(page)[0]:.10g})")

    def look(values):
        page.book.add("steady", "asked", over_min=values["over_min"], tolerance=values["tolerance"])
        return ""

    return Step(page, "steady", "Was it steady?", draw, needs="run", below=result, code=code, look=look)


def _tolerances():
    """The tolerances to choose from, the class's own among them."""
    return [(_tolerance(each), f"{stated(each)} a minute") for each in sorted({*TOLERANCES_C, class_settings()["tolerance_c_per_min"]})]


def _tolerance(c_per_min):
    return f"{c_per_min:g} °C a minute"  # as it is kept, whatever the class reads


def pairs(words):
    """Choices whose values are their own words."""
    return [(each, each) for each in words]


@lru_cache(maxsize=4)
def _steady(run, over_min, tolerance, until_min):
    return check_steady(run, over_min=over_min, tolerance_c_per_min=tolerance, until_min=until_min)


def _until(page):
    """(the minute before which to look, why that one)."""
    if page.effect:
        return round(page.effect.windows.perturbation[0], 3), "kept"
    change = _change(page.run)
    return (page.run.minutes[-1], "end") if change is None else (round(change, 3), "seen")


@lru_cache(maxsize=4)
def _change(run):
    """The minute at which the kit sees the change begin, or None."""
    try:
        return suggest_windows(run).perturbation[0]
    except Fault:
        return None
