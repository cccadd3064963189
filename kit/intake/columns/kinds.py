"""What a column can be, by its name, its unit and its cells: a vessel's thermometer, the room's, gas, light, notes, or names of probes."""

import re

import numpy as np

from kit.intake.forms import PER_PPM, TEMPERATURES
from kit.intake.time import says_time, tells_time
from kit.records import span, thinned
from kit.words import some

# Words that name a role in a header. Common practice, no source; German, French, Spanish and Italian beside English.
NAMES = {
    "control": "control ctrl untreated kontrolle kontroll contrôle controle témoin temoin controllo".split(),
    "treated": "treated treatment experimental behandelt traité traite tratado trattato".split(),
    "room": "room ambient surroundings raum zimmer umgebung salle ambiente sala".split(),
    "light": "light lux irradiance licht lumière luz luce".split(),
}
GAS = {"gas", "co2", "carbon"}
VESSELS = set("vessel temp temps temperature temperatures temperatur température temperatura probe t tin tout thermometer degrees therm thermistor tc".split())
# Made from readings: means and extremes, which may stand for them, and what is no reading at all, or was wished for.
MEANS = set("mean average avg mittel moyenne max maximum min minimum".split())
DERIVED = MEANS | set(
    "difference diff delta setpoint target differenz écart desired sp dew dewpoint feels apparent index chill windchill heatindex wetbulb std "
    "stdev error offset calibration".split()
)
# Thermometers of the logger itself, never those of a vessel.
INSIDE = set("cpu board chip core mcu soc rtc internal onboard".split())
# Words of columns that are no temperatures. Common practice, no source.
OTHER = set(
    "humidity humid hum rh moisture feuchte pressure press baro barometer hpa battery batt bat vbat voltage volt volts vcc current power energy "
    "watt watts lat latitude lon long lng longitude alt altitude elevation speed wind gust direction dir rain precip precipitation id index no "
    "nr num number count counter record entry row line sample seq sequence ph conductivity turbidity signal rssi snr lqi uv solar radiation "
    "voc tvoc pm aqi iaq dust weight mass level depth flow duty output pwm relay heater fan pump valve status state code flag version port "
    "light lux irradiance co2 gas ppm raw adc bits baud uptime duration interval day days year month hour minute second gravity abv ec tds "
    "poa ghi dni dhi albedo stdev spd dir ws wd wdir amps ampere strom".split()
)
NOTES = {"note", "notes", "remark", "remarks", "comment", "comments", "bemerkung", "bemerkungen", "remarque", "remarques"}
# Words that head a column of probe names, or of quantities. Common practice, no source.
PROBES = set(
    "probe sensor sensors channel chan location vessel variable series quantity label id thermometer position fühler sonde device node mac "
    "address entity topic field source name key measurement metric parameter type kind messgröße capteur".split()
)
VESSELS_COUNTED = set("tank jar bottle vessel box".split())  # 'tank' with 1, 2, 3 below it says which one a row is about
PROBE_STEMS = ("probe", "sensor", "device", "channel", "thermometer")
# What a column of states says, never the name of a probe. Common practice, no source.
STATES = set("on off true false yes no ok okay good bad error fault fail alarm idle run running stop stopped start started open closed heat heating "
             "cool cooling in out high low auto manual active inactive ein aus an ja nein".split())  # fmt: skip
MOST_PROBES = 40
LEAST_LEAP = 3.0  # times the usual step of one probe: by so much readings differ where the next row is another probe's
FEW_ROWS = 20  # among fewer, a thermometer may show one value throughout
LEAST_SHARE, LEAST_EACH, GLANCE = 0.9, 2, 12  # of the rows that hold one reading alone, where columns take turns; what shows that none does
SWITCHED = 5.0  # what shows two values so far apart, and no other, is switched, not measured
PLAUSIBLE = (-60.0, 450.0)  # in °C, °F or K: where nearly all readings of a thermometer lie
HOTTEST = 1200.0  # of what is called a thermometer: a kiln, a flame
THOUSANDTHS = (1200, 150_000)  # whole numbers that may be thousandths of °C, as Linux gives them
WORDS = re.compile(r"[^\W\d_]+\d*")
SENSOR = re.compile(r"(?=.*[^\W\d])\w{1,16}(?:[ _.#:-]\w{1,4})?")  # 'Probe 2', 'T1', 'left'; a note says more
CAMEL = re.compile(r"(?<=[a-z][a-z])(?=[A-Z])")


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


def thermometer_rank(column):
    """How plainly a column is a thermometer: 0 by its unit or name, 1 inside the logger, 2 if only its readings would fit, 3 if it holds
    means, or one value throughout; None if it can be none."""
    if not column.numeric or column.unit not in (*TEMPERATURES, ""):
        return None
    words = words_of(column.name)
    plain = column.unit in TEMPERATURES or bool(words & VESSELS)
    if words & (DERIVED - MEANS) or not plain and (words & OTHER or looks_counted(column.values)):
        return None
    thousandths = in_thousandths(column)
    if not thousandths and not mostly_plausible(column.values, HOTTEST if plain else PLAUSIBLE[1]):
        return None
    low, high = span(column.values)
    still = not plain and low == high and len(column.values) >= FEW_ROWS
    return 3 if words & MEANS or still or thousandths and not plain else 1 if words & INSIDE else 0 if plain else 2


def in_thousandths(column):
    """Is this column in thousandths of °C, by its unit, or can its whole numbers be nothing else if it is a thermometer?"""
    if column.unit or not column.numeric:
        return column.unit == "m°C"
    known = thinned(column.values)
    known = known[np.isfinite(known)]
    return len(known) > 0 and THOUSANDTHS[0] < np.median(known) <= THOUSANDTHS[1] and bool((known == np.floor(known)).all())


def mostly_plausible(values, highest):
    known = thinned(values)
    known = known[np.isfinite(known)]
    return bool(len(known)) and PLAUSIBLE[0] <= np.median(known) <= highest


def looks_counted(values):
    """Are these numbers of lines, states, or anything else that only counts or switches?"""
    low, high = span(values)
    steps = np.diff(values)
    if low >= 0 and high <= 1 or len(steps) > 2 and (steps > 0).all() and (steps == np.floor(steps)).all():
        return True
    return bool(high - low > SWITCHED and len(values) > 10 and len(np.unique(thinned(values))) == 2)


def words_of(name):
    """The words of a header in small letters, each with its number and without: {'co2', 'co', 'vessel'} of 'CO₂ vessel'."""
    words = {word.lower() for word in WORDS.findall(CAMEL.sub(" ", name.replace("₂", "2")))}
    return words | {word.rstrip("0123456789") for word in words}


def note_column(table):
    """Where people's notes stand, or None."""
    return next((place for place, column in enumerate(table.columns) if column.name.lower() in NOTES and not column.numeric), None)


def probe_columns(table):
    """Where the names of the probes stand, or of what is measured: columns called so, or texts that name both vessels or take turns."""
    return [place for place in range(len(table.columns)) if holds_probes(table, place)]


def holds_probes(table, place):
    column, rows = table.columns[place], len(table.lines)
    heads = {word.lower() for word in WORDS.findall(f"{column.name} {constant_before(table, place)}")}
    called = bool(heads & PROBES) or any(head.startswith(PROBE_STEMS) for head in heads) or heads & VESSELS_COUNTED and counts_few(column)
    if column.role or column.unit or column.numeric and not called or column.values.dtype.kind == "S":
        return False
    cells = {label_of(cell) for cell in set(column.values.tolist())}
    if not 2 <= len(cells) <= min(MOST_PROBES, rows / 2) or "" in cells or column.numeric and not all(map(str.isdigit, cells)):
        return False
    if called or in_turn(column.values, len(cells)) and any(one_for_all(other.values, len(cells)) for other in table.columns):
        return True
    return all(any(words_of(cell) & set(NAMES[vessel]) for cell in cells) for vessel in ("treated", "control")) or leaps_with(table, column.values, cells)


def refuse_one_each(table):
    """A fault for a file whose lines name sensors, hardly any of them twice, and hold one reading each: a glance at them, not a run."""
    found = [column for column in table.columns if column.values.dtype.kind == "O" and not column.role and not column.unit]
    named = next((column for column in found if names_once(column)), None)
    if named is None or sum(thermometer_rank(column) is not None and not tells_time(column) for column in table.columns) != 1:
        return
    names = list(dict.fromkeys(map(bare_label, named.values)))
    what = f"These {len(table.lines)} lines name {len(names)} sensors ({some(map(repr, names), 4)}): hardly more than one reading of each."
    raise table.fault(what, "A run needs many, one after the other: let the logger record for some minutes, and export all that it recorded.")


def names_once(column):
    """Do these texts name sensors, most of them once? Times or notes would hold more figures, nothing or several words."""
    cells = list(map(bare_label, column.values[: 2 * MOST_PROBES]))
    few = len(column.values) == len(cells) and 2 <= len(set(cells)) <= MOST_PROBES and len(cells) < 2 * len(set(cells))
    return few and not says_time(column) and all(SENSOR.fullmatch(cell) for cell in cells)


def constant_before(table, place):
    """The text that stands in every row before a nameless column, 'device:' before 0 and 1; '' without one."""
    values = table.columns[place - 1].values if place and table.columns[place].nameless else np.zeros(0)
    return values[0] if values.dtype.kind == "O" and len(set(values.tolist())) == 1 else ""


def leaps_with(table, labels, cells):
    """Are these names of probes? Only one column of readings is there, and it leaps where the name changes, by more than it moves from one
    reading to the next of the same name. A state such as 'on' changes without a leap."""
    found = [column for column in table.columns if thermometer_rank(column) is not None and not tells_time(column)]
    if len(found) != 1 or {cell.lower() for cell in cells} <= STATES or not all(re.search(r"[^\W\d]", cell) for cell in cells):
        return False
    values, order = found[0].values, np.argsort(labels.astype(str), kind="stable")
    within = np.abs(np.diff(values[order])[labels[order][1:] == labels[order][:-1]])
    across = np.abs(np.diff(values)[labels[1:] != labels[:-1]])
    known = within[np.isfinite(within)], across[np.isfinite(across)]
    return min(map(len, known)) >= 3 and bool(np.median(known[1]) > LEAST_LEAP * np.median(known[0]))


def columns_in_turn(table):
    """Places of the columns, two thermometers or more among them, of which each row holds one reading; () if rows hold several."""
    partly = [place for place, column in enumerate(table.columns) if column.numeric and not column.odd and not np.isfinite(column.values[:GLANCE]).all()]
    held = [place for place in partly if np.isfinite(table.columns[place].values).sum() >= LEAST_EACH and not says_time(table.columns[place])]
    if sum(thermometer_rank(table.columns[place]) is not None for place in held) < 2:
        return ()
    filled = np.sum([np.isfinite(table.columns[place].values) for place in held], axis=0)
    return tuple(held) if (filled == 1).mean() >= LEAST_SHARE and (filled > 1).sum() == 0 else ()


def counts_few(column):
    """Are these the numbers 1, 2 and so on, each more than once?"""
    if not column.numeric:
        return False
    found, counts = np.unique(column.values, return_counts=True)
    return bool(len(found) > 1 and counts.min() > 1 and np.array_equal(found, np.arange(1, len(found) + 1)))


def in_turn(values, number):
    """Do the same names come again and again in turn?"""
    return len(values) >= 3 * number and np.mean(values[number:] == values[:-number]) >= 0.9


def one_for_all(values, number):
    """Is there one value, such as a time, for each round of `number` rows, and another for the next?"""
    rounds = values[: len(values) // number * number].reshape(-1, number)
    return bool(np.mean((rounds == rounds[:, :1]).all(axis=1)) >= 0.8 and np.mean(rounds[1:, 0] != rounds[:-1, 0]) >= 0.8)


def label_of(cell):
    return cell.strip() if isinstance(cell, str) else "" if cell != cell else f"{cell:g}"


def bare_label(cell):
    return label_of(cell).strip(" :=#")
