"""What a column can be, by its name, its unit and its cells: a vessel's thermometer, the room's, gas, light, notes, or names of probes."""

import re

from kit.intake.forms import PER_PPM, TEMPERATURES

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
NOTES = {"note", "notes", "remark", "remarks", "comment", "comments", "bemerkung", "bemerkungen", "remarque", "remarques"}
# Words that head a column of probe names. Common practice, no source.
PROBES = set("probe sensor channel location vessel variable series quantity label id thermometer position fühler sonde".split())
MOST_PROBES = 12
WORDS = re.compile(r"[^\W\d_]+\d*")


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


def note_column(table):
    """Where people's notes stand, or None."""
    return next((place for place, column in enumerate(table.columns) if column.name.lower() in NOTES and not column.numeric), None)


def probe_column(table):
    """Where the names of the probes stand: a column called so, or one of texts that name both vessels."""
    return next((place for place, column in enumerate(table.columns) if holds_probes(column, len(table.lines))), None)


def holds_probes(column, rows):
    if column.role or column.unit:
        return False
    cells = {label_of(column.cell(row)) for row in range(min(rows, 200))}
    if not 2 <= len(cells) <= min(MOST_PROBES, rows / 2) or "" in cells or column.numeric and not all(map(str.isdigit, cells)):
        return False
    both = all(any(words_of(cell) & set(NAMES[vessel]) for cell in cells) for vessel in ("treated", "control"))
    return column.name.lower() in PROBES or both and not column.numeric


def label_of(cell):
    return cell if isinstance(cell, str) else "" if cell != cell else f"{cell:g}"
