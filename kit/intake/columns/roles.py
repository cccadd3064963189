"""Which column is which: by name where that is plain, by the caller's word otherwise."""

import re

import numpy as np

from kit.intake.given import place_named, ROLES
from kit.intake.forms import PER_PPM, TEMPERATURES, to_celsius, unit_of
from kit.words import listed

# Words that name a role in a header. Common practice, no source; German, French, Spanish and Italian beside English.
NAMES = {
    "control": "control ctrl untreated kontrolle kontroll contrôle controle témoin temoin controllo".split(),
    "treated": "treated treatment experimental behandelt traité traite tratado trattato".split(),
    "room": "room ambient surroundings raum umgebung salle ambiente sala".split(),
    "light": "light lux irradiance licht lumière luz luce".split(),
}
GAS = {"gas", "co2", "carbon"}
VESSELS = {"vessel", "temp", "temperature", "probe", "thermometer", "degrees"}
DERIVED = set(
    "difference diff delta mean average setpoint target differenz mittel écart moyenne".split()
)  # made from readings, or wished for
AIR_PPM = 200  # air has more CO2: 280 ppm before industry, over 420 ppm now (NOAA Global Monitoring Laboratory)
FILLED = {"treated": "treated", "control": "control", "room": "room", "gas": "gas_ppm", "light": "light"}
WORDS_FOR = {"treated": "treated vessel", "control": "control vessel", "room": "room", "gas": "gas probe", "light": "light"}
WORDS = re.compile(r"[^\W\d_]+\d*")
WHY_BOTH = "Only a control shows what would have happened anyway."


def name_roles(table, asked):
    """Give each column its role, by its name or the caller's word. A fault asks for a vessel that neither tells."""
    places = {role: place_named(table, getattr(asked, role), role) for role in ROLES if getattr(asked, role) is not None}
    refuse_twice(table, places)
    for role in ROLES:
        if role not in places:
            found = candidates(table, role, set(places.values()))
            refuse_several(table, role, found)
            places.update({role: place for place in found})
    refuse_missing(table, places)
    for role, place in places.items():
        table = cast(table, role, place, asked)
    return unused(table)


def candidates(table, role, taken):
    """Places of the columns whose name or unit says that they are `role`."""
    free = [(place, column) for place, column in enumerate(table.columns) if place not in taken and not column.role]
    found = [place for place, column in free if fits_unit(column, role) and says(column, role)]
    if role == "treated" and not found:  # 'CO2 (°C)' is the vessel with the gas, unless another column says that it is treated
        return [place for place, column in free if column.unit in TEMPERATURES and GAS & words_of(column.name) and not derived(column)]
    return found


def fits_unit(column, role):
    if role in ("treated", "control", "room"):
        return column.unit in (*TEMPERATURES, "")
    return column.unit in (*PER_PPM, "") if role == "gas" else column.unit not in (*TEMPERATURES, *PER_PPM) or column.unit == "%"


def says(column, role):
    words = words_of(column.name)
    if derived(column):
        return False
    if role == "gas":
        return column.unit in ("ppm", "ppb") or bool(words & GAS) and not words & (VESSELS | {*NAMES["treated"], *NAMES["control"]})
    return bool(words & set(NAMES[role])) and not (role == "treated" and words & set(NAMES["control"]))


def derived(column):
    """Is this a column of differences or means, or of what was wished for?"""
    return bool(words_of(column.name) & DERIVED)


def words_of(name):
    """The words of a header in small letters: {'co2', 'vessel'} of 'CO₂ vessel'."""
    return {word.lower() for word in WORDS.findall(name.replace("₂", "2"))}


def refuse_twice(table, places):
    """A fault if the caller gave one column two roles, the time's among them."""
    held = {place: "time" for place, column in enumerate(table.columns) if column.role == "time"}
    for role, place in places.items():
        if place in held:
            what = f"This column can't be both {held[place]} and {role}."
            raise table.fault(what, f"Say {role}= with another one.", column=table.columns[place], keyword=role)
        held[place] = role


def refuse_several(table, role, found):
    if len(found) > 1:
        names = listed((repr(table.columns[place].header) for place in found), "or")
        do = f"Say {role}= with its header, or its number: {role}={found[0] + 1}."
        raise table.fault(f"Which column is the {WORDS_FOR[role]}: {names}?", do, keyword=role)


def refuse_missing(table, places):
    missing = [vessel for vessel in ("treated", "control") if vessel not in places]
    free = thermometers(table, places)
    if len(free) < len(missing):
        vessel = missing[-1]
        what = f"There is no thermometer for the {vessel} vessel here. {WHY_BOTH}"
        do = f"If it is there, say {vessel}= with its column; if not, repeat the run with both."
        raise table.fault(what, do, keyword=vessel)
    if missing:
        vessel, names = missing[0], listed((repr(table.columns[place].header) for place in free[:4]), "or")
        do = f"Say {vessel}= with its header, or its number: {vessel}={free[0] + 1}."
        raise table.fault(f"Which column is the {vessel} vessel: {names}?", do, keyword=vessel)


def thermometers(table, places):
    """Places of columns that could be a thermometer and have no role yet."""
    free = [(place, column) for place, column in enumerate(table.columns) if place not in places.values() and not column.role]
    return [place for place, column in free if column.numeric and fits_unit(column, "treated") and np.isfinite(column.values).any()]


def cast(table, role, place, asked):
    """Give one column its role, and its readings the kit's unit."""
    column = table.columns[place]
    refuse_odd(table, column)
    if role in ("treated", "control", "room"):
        values, said = temperatures(table, column, asked)
    elif role == "gas":
        values, said = shares(table, column)
    else:
        values, said = column.values, f" (in {column.unit})" if column.unit else ""
    unit = "ppm" if role == "gas" else column.unit if role == "light" else "°C"
    table = table.with_column(place, role=FILLED[role], values=values, unit=unit)
    notes = (note.replace("{}", repr(column.header)) for note in column.notes)
    return table.said(f"Took column '{column.header}' as {role}{said}.", *notes)


def refuse_odd(table, column):
    if column.odd:
        raise table.odd_fault(column, "number")
    if not column.numeric or not np.isfinite(column.values).any():
        seen = "" if column.numeric or not column.cell(0) else f": its first cell says '{column.cell(0)[:30]}'"
        raise table.fault(f"This column holds no numbers{seen}.", "Name another column.", column=column)


def temperatures(table, column, asked):
    """(readings in °C, words on the unit)."""
    unit = unit_of(str(asked.unit)) if asked.unit is not None else column.unit
    if asked.unit is not None and unit not in TEMPERATURES:
        raise table.fault(f"'{asked.unit}' is no unit of temperature.", "Say unit='degC', unit='degF' or unit='K'.", keyword="unit")
    if unit not in TEMPERATURES:
        what = f"This column is in {unit}, which is no temperature." if unit else "No unit is written for this temperature."
        raise table.fault(what, "Say unit='degC', unit='degF' or unit='K'.", column=column, keyword="unit")
    words = {"°C": ", in °C", "°F": ", turned from °F into °C", "K": ", turned from K into °C"}[unit]
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
    do = "Write ppm or % behind its header in a copy, or name another column: gas=."
    raise table.fault("No unit is written for this gas reading.", do, column=column, keyword="gas")


def unused(table):
    left = [repr(column.header) for column in table.columns if not column.role and column.header]
    said = [f"Left unused: {listed(left[:6])}{' and others' if len(left) > 6 else ''}."] if left else []
    return table.said(*said, columns=tuple(column for column in table.columns if column.role in (*FILLED.values(), "time")))
