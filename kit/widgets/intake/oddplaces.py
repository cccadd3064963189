"""The odd places of a run on a card: each kept, kept with a flag or left out, with a reason; and what that does to the effect, both ways."""

from functools import lru_cache

from kit.analysis.effect import paired_effect, suggest_windows
from kit.coursework import decided_run, FLAG, KEEP, OUT, places_of
from kit.faults import Fault
from kit.widgets.cards import area, beside, bullets, buttons, choices, text

CHOICES = ((KEEP, "Keep it"), (FLAG, "Keep it, with a flag"), (OUT, "Leave it out"))
REASONS = ("Somebody touched the probe.", "The logger or its battery slipped.", "No vessel warms and cools so fast.")
NONE_ODD = "No reading leaps, stands still or is missing for long. There is nothing to decide."
HELP = "An odd place may be a slip, or it may be true. Look at the chart, then decide. The file itself stays as it is."
NO_CHANGE = "The kit sees no change in this record by itself, so it can't yet show what this does to an effect. Mark your windows first."


def odd_blocks(run, told):
    """The blocks for the odd places of `run`: what was decided, `told` as {key: (choice, reason)}, the next one that is open, the effect."""
    places = places_of(run)
    if not places:
        return [text("none", NONE_ODD)]
    open_ = [place for place in places if place.key not in told]
    decided = [bullets("decided", "Decided", [_said(place, told) for place in places if place.key in told])] if told else []
    return [text("help", HELP, tone="quiet"), *decided, *both_ways(run, told), *_asked(open_, len(places))]


def decision(run, told, values, alike=False):
    """({key: (choice, reason)} with one more answer, '') from the card's values, or (None, what is missing). `alike`: all of its kind, too."""
    choice, reason = values.get("choice", ""), values.get("reason", "").strip()
    if not choice:
        return None, "Choose one of the answers first."
    if choice == OUT and not reason:
        return None, "Say why first. A reader of your report will ask."
    open_ = [place for place in places_of(run) if place.key not in told]
    same = [each for each in open_ if alike and (each.kind, each.column) == (open_[0].kind, open_[0].column)]
    more = {each.key: (choice, reason) for each in same or open_[:1]}
    decided_run(run, (*told.items(), *more.items()))  # a Fault says why this can't be left out
    return more, ""


def both_ways(run, told):
    """The effect with every reading, beside that with what was left out missing; nothing while nothing is left out."""
    if not any(choice == OUT for choice, _ in told.values()):
        return []
    effects = _effects(run, decided_run(run, tuple(told.items())))
    if effects is None:
        return [text("effects", NO_CHANGE, tone="quiet")]
    return [beside("effects", *zip(("With every reading", "Without what you left out"), map(str, effects)))]


@lru_cache(maxsize=4)
def _effects(run, decided):
    """The effect of a run and of the same as decided, in the same windows; None where no change is seen."""
    for each in (decided, run):
        try:
            windows = suggest_windows(each)
            return paired_effect(run, windows), paired_effect(decided, windows)
        except Fault:
            continue
    return None


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
