"""The parts of a sheet that are more than a number: a chart, a table, the cards of a lesson. Each is HTML made of escaped texts."""

from kit.analysis.planning import bench_card, gas_dose
from kit.charts import chart
from kit.charts.still import svg
from kit.coursework import read_lesson, RUBRIC
from kit.estimate import rounded
from kit.examples import example_run
from kit.physics import room
from kit.report import element, said, table
from kit.settings import class_settings
from kit.sheets.period import period_of
from kit.units import temperature_in, unit

VOLTS_AMPERES = ((230, 6), (230, 10), (230, 16), (120, 15), (120, 20))
STEADY_PART = 0.8  # of what a fuse carries, for a load that stays on for hours (common practice, no source: ask whoever keeps the wiring)
FIRST_MIN = 5


def _period():
    rows = [(_bell(bell), minute, what) for bell, minute, what in period_of(bench_card(gas_dose())).rows]
    return table("One lesson, minute by minute", rows, ("after the bell, min", "minute of the run", "what happens"))


def _bell(minute):
    return "bell" if minute == 0 else f"{-minute:g} min before" if minute < 0 else f"{minute:g}"


def _circuits():
    watts = class_settings()["power_w"]
    rows = [(f"{volts} V, fuse of {amperes} A", int(STEADY_PART * volts * amperes // watts)) for volts, amperes in VOLTS_AMPERES]
    return table(f"Lamps of {watts:g} W on one circuit, if nothing else is on it", rows, ("circuit", "lamps at most"))


def _limits():
    rows = [(f"{limit.ppm:,} ppm", limit.over, limit.by) for limit in room.LIMITS]
    return table("Limits for CO2 in the air of a room", rows, ("CO2", "over", "by"))


def _chart():
    run = _run()
    return element("figure", svg(chart(run), str(run)))


def _readings():
    run = _run()
    columns = run.readings[["treated", "control"]]
    rows = []
    for minute in range(FIRST_MIN, int(run.minutes[-1]) + 1):
        near = columns.iloc[abs(run.minutes - minute).argmin()]
        rows.append((minute, *(rounded(temperature_in(each), 2) for each in near)))
    return table(f"Run {run.name}: invented, from the kit's vessel model", rows, ("minute", f"treated, {unit()}", f"control, {unit()}"))


def _cards():
    """The predictions of lesson 00, to be ticked."""
    return "".join(_asked(place, each.stem, each.choices) for place, each in enumerate(read_lesson("00").predictions, 1))


def _asked(place, stem, choices):
    ticks = element("ul", *(said("li", f"☐ {each.text}") for each in choices), cls="tick")
    sure = said("p", "How sure? ☐ a guess ☐ fairly sure ☐ sure")
    return element("div", said("h3", f"Prediction {place}"), said("p", stem), ticks, sure, said("p", f"Because {'_' * 60}"))


def _rubric():
    rows = [(part, *levels) for part, levels in RUBRIC.items()]
    return table("The rubric", rows, ("part", "level 0", "level 1", "level 2", "level 3"))


def _run():
    return example_run(read_lesson("00").run)


PARTS = {"timeline": _period, "circuits": _circuits, "limits": _limits, "chart": _chart, "readings": _readings, "cards": _cards, "rubric_table": _rubric}
