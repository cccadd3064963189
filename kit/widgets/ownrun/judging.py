"""Before any window is set: the odd places of the run, each decided, and whether the difference was steady."""

from functools import lru_cache

from kit.analysis.effect import suggest_windows
from kit.analysis.steady import check_steady
from kit.coursework import decide_places, decided_run, decisions_of, FLAG, KEEP, left_out_in_code, OUT, places_of
from kit.faults import Fault
from kit.settings import class_settings
from kit.units import stated
from kit.widgets.cards import area, bullets, buttons, choices, text
from kit.widgets.ownrun.step import in_code, Step

CHOICES = ((KEEP, "Keep it"), (FLAG, "Keep it, with a flag"), (OUT, "Leave it out"))
REASONS = ("Somebody touched the probe.", "The logger or its battery slipped.", "No vessel warms and cools so fast.")
NONE_ODD = "No reading leaps, stands still or is missing for long. There is nothing to decide."
HELP = "An odd place may be a slip, or it may be true. Look at the chart, then decide. The file itself stays as it is."
SPANS, TOLERANCES_C = [f"{minutes} min" for minutes in (3, 5, 10, 20)], (0.01, 0.02, 0.05)
WHEN = {"kept": "before your perturbation window", "seen": "before the change that the kit sees", "end": "at the end of the record"}


def odd_step(page):
    """Every odd place, one after the other: keep it, keep it with a flag, or leave it out with a reason."""

    def draw():
        places, told = places_of(page.raw), dict(decisions_of(page.book.kept))
        if not places:
            return [text("none", NONE_ODD)]
        open_ = [place for place in places if place.key not in told]
        decided = [bullets("decided", "Decided", [_said(place, told) for place in places if place.key in told])] if told else []
        return [text("help", HELP, tone="quiet"), *decided, *_asked(open_, len(places))]

    def decide(values, alike=False):
        places, told = places_of(page.raw), dict(decisions_of(page.book.kept))
        place = next(place for place in places if place.key not in told)
        choice, reason = values.get("choice", ""), values.get("reason", "").strip()
        if not choice:
            return "Choose one of the answers first."
        if choice == OUT and not reason:
            return "Say why first. A reader of your report will ask."
        same = [each for each in places if alike and (each.kind, each.column) == (place.kind, place.column) and each.key not in told]
        chosen = [each.key for each in (same or [place])]
        decided_run(page.raw, (*told.items(), *((each, (choice, reason)) for each in chosen)))  # a Fault says why this can't be left out
        decide_places(page.book, chosen, choice, reason)
        return ""

    def again(_values):
        decide_places(page.book, [place for place, _ in decisions_of(page.book.kept)], "", "")
        return "Everything is open again."

    presses = {"decide": decide, "alike": lambda values: decide(values, True), "again": again}
    return Step(page, "odd", "Odd places", draw, needs="run", code=lambda: in_code("", *left_out_in_code(page.raw, page.book.kept)), **presses)


def _asked(places, count):
    """The question about the first place that is still open."""
    if not places:
        return [buttons("do", ("again", "Decide anew"))]
    place, *others = places
    title = f"Place {count - len(others)} of {count}"
    options = [each for each in CHOICES if each[0] != OUT or place.kind != "gap"]
    alike = sum((each.kind, each.column) == (place.kind, place.column) for each in others)
    all_ = [("alike", f"Decide all {alike + 1} like this one")] if alike else []
    return [
        text("place", str(place), title=title),
        choices("choice", "What do you do with it?", options),
        area("reason", "Because … (needed to leave it out)", starters=REASONS),
        buttons("do", ("decide", "Decide"), *all_),
    ]


def _said(place, told):
    choice, reason = told[place.key]
    return f"{place} {dict(CHOICES)[choice]}.{f' Because: {reason}' if reason else ''}"


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
