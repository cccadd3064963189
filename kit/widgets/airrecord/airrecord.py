"""The measured CO2 of the air with a year under the hand: how far it tips the planet's balance, and the range of warming with its parts."""

from functools import lru_cache

from kit.analysis.planet import co2_record, planet_warming
from kit.estimate import rounded
from kit.physics import planet
from kit.units import difference_in, unit
from kit.widgets.cards import Numbers
from kit.widgets.shared import Grip, line, LOOK, Pick, rows, script, sheet, View

HELP = "Drag the year along the record. Then choose from when the change counts. Arrow keys work, too."
FIRST, LAST, BEFORE = 1959, 2001, 1750  # whole years of the record; and the year that the assessments count from
GRIPS = [
    Grip("year", "year", FIRST + 1, LAST, 1980, step=1),
    Pick("since", "Counted from", {"before": f"the air of {BEFORE}", "record": f"the first year of the record, {FIRST}"}, "before"),
]


def co2_view():
    """The CO2 measured at Mauna Loa, 1958 to 2001, with a year under the hand: the forcing since, and the warming in the end as a range."""
    return AirRecordView("CO2 as it was measured", GRIPS, answer, help=HELP)


class AirRecordView(View):
    """The record, and bars of the warming with its parts. Made by `co2_view`."""

    _esm, _css = script("airrecord/airrecord"), sheet(*LOOK, "watching/watching")

    def numbers(self):
        """What the teacher's guide names: the last whole year of the record, counted from 1750."""
        warming = _warming(LAST, "before")
        texts = {"ppm": f"{rounded(_ppm(LAST), 0)} ppm", "tips": str(warming.forcing.effective), "warms": warming.in_the_end.range}
        return Numbers({}, {**texts, "by_forcing": str(warming.by_forcing)})


def answer(year, since):
    """How far CO2 tips the balance from the start to `year`, and the warming by that in the end, very likely (°C), with its parts."""
    now, start, then = _ppm(year), *_start(since)
    warming, record = _warming(year, since), co2_record()
    forcing, end = warming.forcing.effective, warming.in_the_end
    went = f"CO2 went from {rounded(start, 0)} ppm in {then} to {rounded(now, 0)} ppm in {year:g}."
    said = f"{went} That tips the balance by {forcing}. If CO2 stayed there, it would warm the planet by {end.range} in the end, very likely."
    return {
        "sentence": f"{said} Other gases and dust act, too, and are not in it.",
        "numbers": [("CO2", f"{rounded(now, 0)} ppm"), ("tips the balance by", str(forcing)), ("warms in the end by", end.range)],
        "picture": f"The record climbs from {rounded(_ppm(FIRST), 0)} ppm in {FIRST} to {rounded(_ppm(LAST), 0)} ppm in {LAST}. {went}",
        "table": _table(since),
        "lines": [line(record.years, record.ppm, "treated", "measured", places=2)],
        "levels": [{"y": round(start, 1), "name": f"{then}"}],
        "dots": [{"x": year, "y": round(now, 1), "look": "control"}],
        "bars": _bars(warming),
        "most": _warming(LAST, "before").in_the_end.shown.high,
    }


def _bars(warming):
    end, meanwhile = warming.in_the_end, warming.meanwhile
    return [
        _bar("in the end", f"{end.value_text}, very likely {end.range}", "treated", end.value, end),
        _bar("of that range, from the forcing", str(warming.by_forcing), "difference", end.value, warming.by_forcing),
        _bar("while CO2 still rises", f"{meanwhile.value_text}, very likely {meanwhile.range}", "control", meanwhile.value, meanwhile),
    ]


def _bar(label, text, look, value, reach):
    return {"label": label, "text": text, "line": look, "unit": unit(), "from": 0, "to": difference_in(value), "low": reach.shown.low, "high": reach.shown.high}


def _start(since):
    """(ppm, year) from which the change counts."""
    return (planet.PREINDUSTRIAL_PPM, BEFORE) if since == "before" else (_ppm(FIRST), FIRST)


def _ppm(year):
    return co2_record().mean_of(int(year))


@lru_cache(maxsize=128)
def _warming(year, since):
    return planet_warming(_ppm(year), _start(since)[0])


def _table(since):
    years = (1960, 1970, 1980, 1990, 2000)
    cells = [[f"{year}", rounded(_ppm(year), 1), str(_warming(year, since).forcing.effective), _warming(year, since).in_the_end.range] for year in years]
    head = ["year", "CO2, ppm", "tips the balance by", "warms in the end by, very likely"]
    return rows(f"CO2 of the air, counted from {_start(since)[1]}. Source: {co2_record().source}", head, cells)
