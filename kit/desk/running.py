"""The cards on the class's runs: each by itself, all together, and the pages to print."""

from functools import lru_cache
from pathlib import Path

from kit.analysis.planning import bench_card, gas_dose
from kit.charts import chart, marked_run
from kit.charts.still import svg
from kit.desk.bringing import desk_card
from kit.desk.classpage import write_bench_sheets, write_class_page
from kit.desk.pooling import next_runs, open_points, suspect_runs, SWAPPED
from kit.faults import Fault
from kit.settings import class_settings
from kit.units import unit
from kit.widgets.cards import area, bullets, buttons, choices, text
from kit.widgets.intake import first_rows, folded, ticks

NO_RUNS = "No run has come in yet. Bring the class's files in above."
STOOD = "Tick each run whose vessels had changed places."
THERMOMETERS = [("unsaid", "not known"), ("own", "yes, each group its own")]
TABLETS, READ_AT = (2, 3, 4, 6, 8), (8, 10, 15, 20)
BOARD, OWN = "Every group's effect with its range, and the class mean.", "Had each group thermometers of its own?"
MADE = "{} is written. Open it in the file list on the left, then print it."


def runs_card(desk):
    """A table of all runs, and each one's chart with what to keep in mind; the ones to look at again are open."""

    def draw():
        runs = desk.collected.runs
        if not runs:
            return [text("none", NO_RUNS)]
        again = suspect_runs(desk.collected, desk.effect)
        rows = [(made.name, _warming(made), "the group" if made.marked else "the kit", "look again" if made.name in again else "") for made in runs]
        table = first_rows("table", "All runs", ("run", "extra warming", "windows by", "note"), rows, wraps=True)
        return [table, *(_folded(made, made.name in again) for made in runs)]

    return desk_card(desk, "runs", "Run by run", draw)


def _warming(made):
    return made.effect.warming.text if made.effect else "no number"


def _folded(made, again):
    lines = [str(made.effect or made.why), *(map(str, made.effect.cautions) if made.effect else ())]
    title = f"{made.name}{': look again' if again else ''}"
    alt = f"Readings of {made.name} over time, with its windows."
    return folded(f"run-{made.key}", title, _picture(made), alt, lines=lines, is_open=again)


@lru_cache(maxsize=64)
def _picture(made):
    return svg(marked_run(made.run, made.windows), str(made.effect or made.run))


def pooled_card(desk):
    """The class's number with side, spread and next group, and the form on how the runs stood."""

    def draw():
        effect = desk.effect
        if effect is None:
            return [text("none", NO_RUNS)]
        board = folded("board", "All groups on one chart", svg(chart(effect), str(effect), headed=False), BOARD)
        numbers = [("groups differ by", effect.spread.text), ("one more group would find", effect.next_group.text)]
        side = [("place and vessel alone", effect.side.text)] if effect.side else []
        table = first_rows("numbers", "All groups together", ("what", unit()), [("class mean", effect.mean.text), *side, *numbers])
        mind = [bullets("mind", "Keep in mind", open_points(effect))] if effect.cautions else []
        todo = bullets("next", "The next run to do", next_runs(desk.collected, effect))
        return [text("mean", str(effect), tone="kept"), board, table, *mind, todo, *_stood(desk)]

    def pool(values):
        swapped = values.get("stood", "").split()
        stood = {made.key: SWAPPED if made.key in swapped else "usual" for made in desk.collected.runs if made.effect}
        desk.tell({**desk.stood, **stood, "thermometers": values.get("thermometers", "unsaid")})
        return "Pooled anew, and kept."

    return desk_card(desk, "pooled", "All groups together", draw, pool=pool)


def _stood(desk):
    """One table on how the vessels stood, and the question on thermometers."""
    made_known = [made for made in desk.collected.runs if made.effect]
    rows = [(made.key, f"vessels of {made.name} had changed places", made.name, _warming(made)) for made in made_known]
    swapped = [made.key for made in made_known if desk.stood.get(made.key) == SWAPPED]
    table = ticks("stood", STOOD, ("run", "extra warming", "changed places"), rows, swapped)
    shared = choices("thermometers", OWN, THERMOMETERS, desk.stood.get("thermometers", "unsaid"), across=True)
    return [table, shared, buttons("do", ("pool", "Pool them so"))]


def pages_card(desk):
    """Buttons that write the class page and the bench sheets, and what the sheets should say."""

    def draw():
        said, names = class_settings(), "\n".join(dict.fromkeys(made.group for made in desk.collected.runs))
        sheets = [
            area("groups", "For the bench sheets: one group a line", names, rows=4),
            *_tablets(said),
            choices("read", "When is the result read?", _minutes(said), f"{said['read_after_min']:g}", across=True),
        ]
        return [buttons("page", ("page", "Make the class page")), *sheets, buttons("sheets", ("sheets", "Make the bench sheets"))]

    def page(_values):
        if desk.effect is None:
            raise Fault(NO_RUNS)
        return MADE.format(write_class_page(desk.collected, desk.effect).as_posix())

    def sheets(values):
        groups = list(dict.fromkeys(line.strip() for line in values.get("groups", "").splitlines() if line.strip()))
        if not groups:
            return "Write the names of the groups first, one a line."
        dose = gas_dose(tablets=_number(values["tablets"]) if "tablets" in values else None, groups=len(groups))
        return MADE.format(Path(write_bench_sheets([bench_card(dose, _number(values["read"]), group) for group in groups])).as_posix())

    return desk_card(desk, "pages", "Pages to print", draw, page=page, sheets=sheets)


def _tablets(said):
    """The question for tablets, with the class's own number among them; none where its gas comes from something else, which the settings say whole."""
    if said["source"] != "tablets":
        return []
    counts = [(f"{count:g}", f"{count:g}") for count in sorted({*TABLETS, said["tablets"]})]
    return [choices("tablets", "Tablets for one vessel", counts, f"{said['tablets']:g}", across=True)]


def _minutes(said):
    return [(f"{minute:g}", f"{minute:g} min after the gas") for minute in sorted({*READ_AT, said["read_after_min"]})]


def _number(text):
    return int(number) if (number := float(text)).is_integer() else number
