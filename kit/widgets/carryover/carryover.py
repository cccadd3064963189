"""What carries over from the vessel to a planet: the learner sorts, and each point then says how it is here and there."""

from kit.analysis.planet import carries_over
from kit.widgets.shared import LOOK, Pick, rows, script, sheet, View
from kit.words import counted

HELP = "Sort each point: does it carry over from the vessel to a planet? Each then says how it is in both."
OPEN, CARRIES, NOT = "open", "carries", "not"
WORDS = {OPEN: "not sorted", CARRIES: "Carries over", NOT: "Does not"}
POINTS = {each.about.replace(" ", "_"): each for each in carries_over().parallels}
GRIPS = [Pick(name, each.about[0].upper() + each.about[1:], WORDS, OPEN) for name, each in POINTS.items()]


def sorting_view():
    """Ten points to sort into two columns: what carries over from the vessel to a planet, and what does not."""
    return SortingView("What carries over?", GRIPS, answer, help=HELP)


class SortingView(View):
    """Points to sort, and two columns that fill. Made by `sorting_view`."""

    _esm, _css = script("carryover/carryover"), sheet(*LOOK, "carryover/carryover")


def answer(**sorted_as):
    """The two columns as sorted, each point with how it is in vessel and planet; points that physics sorts otherwise say so."""
    told = {name: choice for name, choice in sorted_as.items() if choice != OPEN}
    otherwise = [name for name, choice in told.items() if not _agrees(name, choice)]
    columns = [{"name": WORDS[each], "points": [POINTS[name].about for name in told if told[name] == each]} for each in (CARRIES, NOT)]
    return {
        "sentence": _sentence(len(POINTS) - len(told), len(otherwise)),
        "told": {name: _told(name, choice) for name, choice in told.items()},
        "columns": columns,
        "table": rows("Sorted so far", ["point", "in the vessel", "on a planet"], [_row(POINTS[name]) for name in told]),
    }


def _agrees(name, choice):
    return POINTS[name].carries == (choice == CARRIES)


def _told(name, choice):
    point, again = POINTS[name], "" if _agrees(name, choice) else "Read both sides again: would you sort it like this?"
    return {"both": f"In the vessel: {point.vessel}. On a planet: {point.planet}.", "again": again}


def _row(point):
    return [point.about, point.vessel, point.planet]


def _sentence(left, otherwise):
    if left == len(POINTS):
        return "Nothing is sorted yet. Begin where you are sure."
    still = f"{counted(left, 'point')} still to sort." if left else "All are sorted."
    return f"{still} {counted(otherwise, 'point')} to look at again." if otherwise else still
