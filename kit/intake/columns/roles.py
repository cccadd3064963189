"""Which column is which, by name where that is plain, by the caller's word otherwise; then readings that can't be, or are missing."""

from dataclasses import replace

import numpy as np

from kit.faults import Choice, Question
from kit.intake.columns.doubts import doubt_about, doubted, no_thermometer
from kit.intake.columns.kinds import derived, fits_unit, GAS, in_thousandths, says, thermometer_rank, words_of
from kit.intake.columns.marks import BOUNDS, LARGEST, NO_READING, without_marks
from kit.intake.columns.twins import without_doubtful_units, without_twins
from kit.intake.forms import PER_PPM, TEMPERATURES, to_celsius, unit_of
from kit.intake.given import place_named, ROLES
from kit.records import HEADERS, missing_in, places_in, remarks_on, span
from kit.words import counted, listed

AIR_PPM = 200  # air has more CO2: 280 ppm before industry, over 420 ppm now (NOAA Global Monitoring Laboratory)
FILLED = {"treated": "treated", "control": "control", "room": "room", "gas": "gas_ppm", "light": "light"}
WORDS_FOR = {"treated": "treated vessel", "control": "control vessel", "room": "room", "gas": "gas probe", "light": "light"}
VESSELS, WARM = ("treated", "control"), ("treated", "control", "room")
IN_UNITS = (
    Choice("degC", seen="degrees Celsius, °C"),
    Choice("degF", seen="degrees Fahrenheit, °F"),
    Choice("K", seen="kelvin, K"),
)
IN_THOUSANDTHS = (Choice("mdegC", seen="thousandths of a degree Celsius: 21437 is 21.437 °C"),)


def name_roles(table, asked):
    """Give each column its role, by its name or the caller's word. A fault asks at once for all that neither tells: vessels and units."""
    places = {role: place_named(table, getattr(asked, role), role) for role in ROLES if getattr(asked, role) is not None}
    refuse_twice(table, places)
    units = [column.unit for column in table.columns if column.numeric and not column.role and column.unit in (*TEMPERATURES, "")]
    several = len(units) > 2 or len(set(units)) > 1
    if not table.about and (several or "" in units):  # in a file that the kit wrote each column is what it says
        table = without_doubtful_units(without_twins(table, places.values(), again=several))
    table, places, unsure = with_named(table, places)
    missing = [vessel for vessel in VESSELS if vessel not in places and vessel not in unsure]
    free = thermometers(table, places, len(missing))
    if len(free) < len(missing) and "room" in places and asked.room is None:  # then it may be a vessel rather than the room
        places = {role: place for role, place in places.items() if role != "room"}
        free = thermometers(table, places, len(missing))
    elif len(free) == len(missing) == 1 and free[0] not in doubted(table, warm_places(places, free)):
        places = places | {missing.pop(): free[0]}
        table = table.said(f"Only '{table.columns[free[0]].header}' is left as a thermometer.")
    if len(free) < len(missing):
        raise no_thermometer(table, missing[-1], thermometers(table, {}, 1))
    refuse_open(table, places, unsure | {vessel: free for vessel in missing}, asked)
    worded = worded_units(table, places, asked)
    for role, place in places.items():
        table = cast(table, role, place, worded.get(role))
    return unused(table)


def with_named(table, places):
    """(table, {role: place} with those that names tell, {vessel: places} where several columns have the name)."""
    unsure = {}
    for role in ROLES:
        found = [] if role in places else candidates(table, role, set(places.values()))
        empty = [] if role in VESSELS or table.about else [place for place in found if not holds_numbers(table.columns[place])]
        for place in empty:
            table = table.said(f"Column '{table.columns[place].header}' holds no numbers: left out.").with_column(place, role="empty")
        found = [place for place in found if place not in empty]
        if len(found) == 1:
            places = {**places, role: found[0]}
        elif found and role in VESSELS:
            unsure[role] = found
        elif found:
            names = listed((repr(table.columns[place].header) for place in found), "or")
            table = table.said(f"No column is taken as {WORDS_FOR[role]}, for it could be {names}. Say {role}= to take one.")
    return table, places, unsure


def holds_numbers(column):
    """Does a column hold a reading, or one that is odd? The first few tell mostly."""
    return column.numeric and bool(column.odd or np.isfinite(column.values[:100]).any() or np.isfinite(column.values).any())


def candidates(table, role, taken):
    """Places of the columns whose name or unit says that they are `role`."""
    free = [(place, column) for place, column in enumerate(table.columns) if place not in taken and not column.role]
    found = [place for place, column in free if fits_unit(column, role) and says(column, role) and may_be(column, role)]
    if role == "treated" and not found:  # 'CO2 (°C)' is the vessel with the gas, unless another column says that it is treated
        return [place for place, column in free if column.unit in TEMPERATURES and GAS & words_of(column.name) and not derived(column)]
    return found


def may_be(column, role):
    """A vessel's and the room's column must be able to be a thermometer: 'control' may head what drives a heater."""
    return role not in WARM or not column.numeric or column.unit in TEMPERATURES or thermometer_rank(column) is not None or not np.isfinite(column.values).any()


def refuse_twice(table, places):
    """A fault if the caller gave one column two roles, the time's among them."""
    held = {place: "time" for place, column in enumerate(table.columns) if column.role == "time"}
    for role, place in places.items():
        if place in held:
            what = f"This column can't be both {held[place]} and {role}."
            raise table.fault(what, f"Say {role}= with another one.", column=table.columns[place], keyword=role)
        held[place] = role


def refuse_open(table, places, unsure, asked):
    """A fault with a question for each role that is `unsure`, {role: places that it may have}, and for units that are nowhere written."""
    warm, open_roles = warm_places(places, *unsure.values()), [role for role in ROLES if role in unsure]
    asks = [f"Which column is the {WORDS_FOR[role]}?" for role in open_roles]
    asks[:1] = [doubt_about(table, warm) + ask for ask in asks[:1]]
    late = doubted(table, warm) if asks else ()
    questions = [Question(ask, role, table.choices(sorted(unsure[role], key=late.__contains__))) for ask, role in zip(asks, open_roles)]
    questions += unit_question(table, {role: [place] for role, place in places.items()} | unsure, asked)
    if questions:
        raise table.fault(questions[0].text, questions=questions)


def unit_question(table, places, asked):
    """The question for the unit of those temperatures, {role: places that it may have}, for which neither file nor caller tells one."""
    plain, single = asked.units
    bare = [places[role] for role in WARM if role in places and role not in single and all(not table.columns[at].unit for at in places[role])]
    if plain is not None or not bare:
        return []
    headers = [repr(table.columns[place].header) for place in sorted({place for each in bare for place in each})]
    thousandths = all(in_thousandths(table.columns[place]) for each in bare for place in each)
    return [Question(f"No unit is written for {listed(headers)}.", "unit", IN_THOUSANDTHS if thousandths else IN_UNITS)]


def thermometers(table, places, wanted):
    """Places of the columns without a role that are thermometers, the plainest first; less plain ones only if not as many as `wanted`."""
    ranks = {place: thermometer_rank(column) for place, column in enumerate(table.columns) if place not in places.values() and not column.role}
    for most in range(4):
        found = sorted((rank, place) for place, rank in ranks.items() if rank is not None and rank <= most)
        if len(found) >= wanted and found:
            break
    return [place for _, place in found]


def warm_places(places, *more):
    return {*(place for role, place in places.items() if role in WARM), *(place for each in more for place in each)}


def worded_units(table, places, asked):
    """{role: unit} by the caller's words. One word for all is meant for columns without a unit, or for all that say one and the same."""
    plain, single = asked.units
    warm = {role: table.columns[place] for role, place in places.items() if role in WARM}
    told = [column.unit for column in warm.values()]
    alike = "" not in told and len(set(told)) == 1
    words = {role: plain for role, column in warm.items() if plain is not None and (alike or not column.unit)} | single
    for role, word in words.items():
        if unit_of(str(word)) not in (TEMPERATURES if role in WARM else PER_PPM):
            raise table.fault(f"'{word}' is no unit of {'temperature' if role in WARM else 'a gas'}.", keyword="unit", choices=IN_UNITS)
    return {role: unit_of(str(word)) for role, word in words.items()}


def cast(table, role, place, worded):
    """Give one column its role, and its readings the kit's unit; `worded` is the unit by the caller's word, if there is one."""
    column = table.columns[place]
    if table.about and column.header == HEADERS.get(FILLED[role]) and not holds_numbers(column):  # the kit wrote it, nothing was measured
        return table.with_column(place, role=FILLED[role], values=np.full(len(table.lines), np.nan))
    refuse_odd(table, column)
    if role in WARM:
        values, said = temperatures(table, column, worded)
    elif role == "gas":
        values, said = shares(table, column if worded is None else replace(column, unit=worded))
    else:
        values, said = column.values, f" (in {column.unit})" if column.unit else ""
    unit = "ppm" if role == "gas" else column.unit if role == "light" else "°C"
    table = table.with_column(place, role=FILLED[role], values=values, unit=unit)
    notes = (note.replace("{}", repr(column.header)) for note in column.notes)
    return table.said(f"Took column '{column.header}' as {role}{said}.", *notes)


def refuse_odd(table, column):
    if column.odd:
        raise table.odd_fault(column, "number")
    if not holds_numbers(column):
        seen = "" if column.numeric or not column.cell(0) else f": its first cell says '{column.cell(0)[:30]}'"
        raise table.fault(f"This column holds no numbers{seen}.", "Name another column.", column=column)


def temperatures(table, column, worded):
    """(readings in °C, words on the unit)."""
    unit = worded or column.unit
    if unit not in TEMPERATURES:
        what = f"This column is in {unit}, which is no temperature." if unit else f"No unit is written for '{column.header}'."
        raise table.fault(what, column=column, keyword="unit", choices=IN_UNITS)
    words = {"°C": ", in °C", "°F": ", turned from °F into °C", "K": ", turned from K into °C", "m°C": ", turned from thousandths of °C into °C"}[unit]
    against = f"; the file says {column.unit}, you said {unit}" if column.unit not in ("", unit) else ""
    return to_celsius(column.values, unit), words + against


def shares(table, column):
    """(gas in ppm, words on the unit)."""
    unit = column.unit or unit_of_gas(table, column)
    if unit not in PER_PPM:
        what = f"This column is in {unit}, which is no share of a gas."
        raise table.fault(what, "Name another column: gas=.", column=column, keyword="gas")
    why = "" if column.unit else f": no unit is written, but these numbers fit air in {unit} only"
    if unit == "ppm":
        return column.values, f", in ppm{why}"
    return column.values * PER_PPM[unit], f", turned from {unit} into ppm{why}"


def unit_of_gas(table, column):
    """A record of CO2 that starts in air tells its unit: never under 200 in ppm, never over 100 in %."""
    if np.nanmin(column.values) >= AIR_PPM:
        return "ppm"
    if 0 <= np.nanmin(column.values) and np.nanmax(column.values) <= 100:
        return "%"
    choices = [Choice({"gas": unit}, seen=words) for unit, words in (("ppm", "parts in a million"), ("%", "percent"))]
    raise table.fault("No unit is written for this gas reading.", "Or name another column: gas=.", column=column, keyword="unit", choices=choices)


def unused(table):
    left = [repr(column.header) for column in table.columns if not column.role and column.header]
    said = [f"Left unused: {listed(left[:6])}{' and others' if len(left) > 6 else ''}."] if left else []
    return table.said(*said, columns=tuple(column for column in table.columns if column.role in (*FILLED.values(), "time")))


def check_readings(table, asked):
    """Count what is missing, name what is odd. Only what can't be a reading becomes missing; all else is kept."""
    table = without_impossible(table, asked)
    for column in table.columns:
        missing = missing_in(column.values)
        if len(column.values) - missing < 2 and column.role in ("treated", "control"):
            one = len(column.values) - missing == 1
            what = f"There {'is 1 reading' if one else 'are no readings'} for the {column.role} vessel."
            raise table.fault(what, "A run needs at least two of each.", column=column)
        if missing:
            table = table.said(f"{column.role}: {missing:,} of {len(column.values):,} readings {'is' if missing == 1 else 'are'} missing.")
    held = {column.role: column.values for column in table.columns}
    return table.said(*remarks_on(places_in(held.pop("time"), held)))


def without_impossible(table, asked):
    """Make missing what can't be a reading, and numbers that stand for none; a file that the kit itself wrote holds neither."""
    for place, column in enumerate(table.columns):
        if not table.about and column.numeric and column.role != "time" and suspicious(column):
            table = without_marks(table, place)
    return table


def suspicious(column):
    low, high = span(column.values)
    least, most = BOUNDS.get(column.unit, (max(NO_READING) + 1, LARGEST))
    return low < least or high > most
