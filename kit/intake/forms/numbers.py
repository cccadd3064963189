"""How a number may be written, and its unit: decimal mark, thousands mark, sign, the marks for a missing one; °C, ppm and seconds.

0 °C is 273.15 K by definition (SI Brochure, 9th edition, 2.3.1); 32 °F is 0 °C and 180 °F make 100 K (NIST SP 811, B.8).
"""

import re
from math import isfinite

import numpy as np

from kit.faults import Choice, IntakeFault
from kit.words import listed

# Marks for 'no reading' that say nothing more. Common practice, no source.
MISSING = ("", "M", "NA", "N/A", "n/a", "na", "NaN", "nan", "NAN", "null", "NULL", "Null", "None", "-", "--", "---", "#N/A", "?")
# Words by which a logger says that the sensor gave nothing. Common practice, no source.
FAILED = set("err error fault fail failed open ol over overload short invalid inf infinity #value! #div/0! #ref! ...".split())
STRICT = {
    ".": re.compile(r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d{1,3})?", re.ASCII),
    ",": re.compile(r"[+-]?(?:\d+(?:,\d*)?|,\d+)(?:[eE][+-]?\d{1,3})?", re.ASCII),
}
GROUPED = {
    ".": re.compile(r"[+-]?\d{1,3}(?:([,' ])\d{3})(?:\1\d{3})*(?:\.\d*)?", re.ASCII),
    ",": re.compile(r"[+-]?\d{1,3}(?:([.' ])\d{3})(?:\1\d{3})*(?:,\d*)?", re.ASCII),
}
EITHER = re.compile(r"[+-]?\d{1,3}([.,])\d{3}", re.ASCII)
LEADING_ZERO = re.compile(r"[+-]?0[.,]\d+", re.ASCII)
SPACES = str.maketrans({"\u00a0": " ", "\u202f": " ", "\u2009": " ", "\u2212": "-", "\u2019": "'"})


def tidied(cell):
    """A cell without blanks and single quotes around it; typographic spaces, minus and apostrophe as the plain ones."""
    cell = cell.translate(SPACES).strip(" \t") if not cell.isascii() else cell.strip(" \t")
    return cell[1:-1].strip() if cell[:1] == cell[-1:] == "'" and len(cell) > 2 else cell


def looks_like_number(cell):
    """Could this be a number under one decimal mark or the other?"""
    return any(form.fullmatch(cell) for form in (*STRICT.values(), *GROUPED.values()))


def number(cell, decimal):
    """The number in a tidied `cell` with the decimal mark '.' or ','; None if it holds none."""
    if STRICT[decimal].fullmatch(cell):
        value = float(cell.replace(",", "."))
        return value if isfinite(value) else None
    return grouped(cell, decimal)


def grouped(cell, decimal):
    """The number in a cell with marks between thousands, 1204.5 for '1.204,5' where the decimal mark is ','; else None."""
    if not GROUPED[decimal].fullmatch(cell):
        return None
    value = float(cell.translate(dict.fromkeys(map(ord, "' ,.".replace(decimal, "")))).replace(",", "."))
    return value if isfinite(value) else None


MEASURE = re.compile(r"([+-]?[\d.,' ]*\d[.,]?) ?([^\d\s.,'+-].{0,11})", re.DOTALL)


def measure(cell, decimal):
    """(number, unit) of a tidied cell like '21,4 °C'; None where no known unit follows a number."""
    match = MEASURE.fullmatch(cell)
    unit = unit_of(match[2]) if match else ""
    value = number(match[1].strip(), decimal) if unit else None
    return None if value is None else (value, unit)


def looks_like_measure(cell):
    """Is this a number with a known unit behind it, under either decimal mark?"""
    return any(measure(cell, mark) for mark in STRICT)


def decimal_mark(cells, asked, file):
    """The decimal mark of a file from its number `cells`, (line, text) pairs: '.' or ','. A fault if they leave it open."""
    if asked is not None:
        return refuse_mark(asked)
    votes = {}
    for line, cell in cells:
        votes.setdefault(vote(cell), (line, cell))
    if "." in votes and "," in votes:
        (line, cell), (other, second) = votes[","], votes["."]
        what = f"'{cell}' has a decimal comma, but '{second}' in line {other} a decimal point."
        raise IntakeFault(what, "Write them alike in a copy of the file.", file=file, line=line, seen=cell)
    if "," in votes or "." in votes:
        return "," if "," in votes else "."
    if "either ," in votes:
        line, cell = votes["either ,"]
        readings = cell.replace(",", "."), cell.replace(",", "")
        choices = [Choice(mark, reading) for mark, reading in zip(",.", readings)]
        what = f"'{cell}' could be {listed(readings, 'or')}: which mark goes before the decimals?"
        raise IntakeFault(what, file=file, line=line, seen=cell, keyword="decimal", choices=choices)
    return "."


def refuse_mark(asked):
    if not isinstance(asked, str) or asked not in STRICT:
        what = f"A decimal mark can't be {str(asked)[:20]!r}."
        raise IntakeFault(what, keyword="decimal", choices=[Choice(",", "21,4"), Choice(".", "21.4")])
    return asked


def vote(cell):
    """What one cell says about the decimal mark: '.', ',', 'either .', 'either ,' or nothing."""
    with_unit = MEASURE.fullmatch(cell)
    cell = with_unit[1] if with_unit else cell
    points, commas = cell.count("."), cell.count(",")
    if points and commas:
        return "." if cell.rfind(".") > cell.rfind(",") else ","
    mark, count = (".", points) if points else (",", commas)
    if count > 1:
        return "," if mark == "." else "."
    open_case = EITHER.fullmatch(cell) and not LEADING_ZERO.fullmatch(cell)
    return (f"either {mark}" if open_case else mark) if count else None


WRITTEN = {
    # øC and ¡C: the degree sign of older code pages, read as Latin-1.
    "°C": "°c degc deg_c deg.c celsius celcius centigrade grad_c gradc c øc ¡c oc *c ^c c° degreec degreesc".split(),
    "°F": "°f degf deg_f deg.f fahrenheit f øf ¡f of *f ^f f° degreef degreesf".split(),
    "K": "k kelvin °k degk".split(),
    "m°C": "m°c mdegc mdeg_c millidegc millidegree millidegrees millicelsius milli_degc milli_celsius 1/1000°c".split(),
    "ppm": "ppm ppmv ppm_v µmol/mol μmol/mol umol/mol".split(),
    "ppb": ["ppb", "ppbv"],
    "%": "% %vol vol% vol.% vol-% percent pct".split(),
    "ms": "ms msec millis milliseconds millisecond".split(),
    "s": "s sec secs second seconds sek sekunden".split(),
    "min": "min mins minute minutes minuten".split(),
    "h": "h hr hrs hour hours std stunden".split(),
    "d": "d day days tage".split(),
    "lx": "lx lux".split(),
    "W/m²": "w/m² w/m2 w/m^2 wm-2 wm^-2".split(),
    "V": ["v", "volt", "volts"],
    "mm:ss": ["mm:ss", "m:ss", "min:s", "min:sec"],
    "h:mm": ["h:mm", "hh:mm"],
    "h:mm:ss": ["h:mm:ss", "hh:mm:ss"],
}
# Units of other things, believed only in brackets: 'in' at the end of a name may mean inside. No 'a': 'Temp (A)' is the first of two.
OTHERS = set(
    "hpa kpa pa mbar mb bar psi inhg mmhg %rh rh% %r.h. rh m/s km/h kmh mph kn knots mm cm m in kwh wh kw w ma mv ph db dbm deg ° hz rpm l/h "
    "l/min m3/h m³/h g/m3 g/m³ µg/m³ ug/m3 ug/m³ mah g kg ohm kohm ω kω ntu us/cm µs/cm ms/cm mg/l j".split()
)
RATES = re.compile(r"(?:^|[\W_])(?:m3|m³|l|ml|kg|g|km|mi|mm|cm|m|w|kw|wh|kwh|j)$", re.IGNORECASE)
UNITS = {written: unit for unit, ways in WRITTEN.items() for written in ways}
TEMPERATURES = ("°C", "°F", "K", "m°C")
SECONDS = {"ms": 0.001, "s": 1.0, "min": 60.0, "h": 3600.0, "d": 86400.0}
PER_PPM = {"ppm": 1.0, "ppb": 0.001, "%": 10_000.0}
# The degree sign and what is typed for it: ordinal indicator, ring above; and the one-letter signs of Unicode.
ALIKE = str.maketrans({"º": "°", "˚": "°", "℃": "°C", "℉": "°F", "K": "K", "\u00a0": " ", "\u202f": " "})
TO_CELSIUS = {
    "°C": lambda degrees: degrees,
    "°F": lambda degrees: np.round((degrees - 32) / 1.8, 9),
    "m°C": lambda thousandths: np.round(thousandths / 1000, 9),
    "K": lambda kelvins: np.round(kelvins - 273.15, 9),  # 294.55 K is 21.4 °C, not 21.400000000000034
}


def unit_of(text):
    """The unit that `text` writes ('degC', '° C', 'Minutes'), or ''."""
    bare = text.translate(ALIKE).strip(" .").lower()
    for way in (bare, bare.replace(" ", ""), bare.replace(" ", "_")):
        if way in UNITS:
            return UNITS[way]
    return ""


IN_BRACKETS = re.compile(r"\s*[(\[{<]\s*([^()\[\]{}<>]*)\s*[)\]}>]\s*")
AT_THE_END = re.compile(
    r"^(.*?)(?:\s*[/,;:]\s*|_|\s+|\.\s*)(?:in\s+)?((?:deg|°|º|˚|grad)?[\s_.]?[^\s_/,;:.]+|w/m(?:²|2|\^2))$", re.DOTALL | re.IGNORECASE
)


TEMP_WITH_LETTER = re.compile(r"^(.*[Tt](?:emp|emperature)(?:[_ ]?\d+)?)([CFK])$")


def name_and_unit(header):
    """('treated', '°C') from 'treated_degC', 'Treated (°C)', 'treated / °C', 'treated in degC', 'tempC'; the unit is '' if none is written."""
    header = " ".join(header.translate(ALIKE).split())
    inside = max(IN_BRACKETS.finditer(header), key=lambda found: rank_of_unit(found[1]), default=None)
    if inside and (unit := unit_in_brackets(inside[1])):  # a name may hold others before it: 'vessel (CO2) [°C]'
        return f"{header[: inside.start()]} {header[inside.end() :]}".strip(" _:,/"), unit
    ending = AT_THE_END.match(header) or TEMP_WITH_LETTER.match(header)
    unit = unit_of(ending[2]) if ending else ""
    if unit in SECONDS and RATES.search(ending[1]):  # 'flow_m3_h' is no time
        return header, "per time"
    if unit:
        return ending[1].strip(" _:,/"), unit
    return header, unit_of(header) if len(header) > 1 else ""  # 'C' alone may be the control


# A single letter in headers that are alike but for it: 'Temp (C)' and 'Temp (F)' have units, 'Temp (C)' and 'Temp (D)' names.
ALONE = re.compile(r"(?<![^\W_])(?<![°º˚])(?<!deg[ _.])[A-Za-z](?![^\W_])|(?<=[Tt]emp)[A-Z]$")
# Letters that are units of one kind where they stand behind the same words: of a thermometer and its voltage, of electricity, of time.
TOGETHER = tuple(map(set, ("cfkv", "avwj", "dhms")))
HELD = "\x00"  # stands for a letter that names, while the unit is looked for


def names_and_units(headers):
    """((name, unit) of each header, as `name_and_unit` finds them but for letters that name; a sentence if such a letter could be a unit)."""
    alike = {}
    for header in headers:
        for place in letters_in(header):
            alike.setdefault(held(header, place), set()).add(header[place].lower())
    naming = {form for form, letters in alike.items() if len(letters) > 1 and not any(letters <= units for units in TOGETHER)}
    found = [without_letters(header, [place for place in letters_in(header) if held(header, place) in naming]) for header in headers]
    mistaken = [repr(header) for header, (_, unit) in zip(headers, found) if name_and_unit(header)[1] != unit]
    return found, (f"Letters that tell headers apart are names, not units: {listed(mistaken)}.",) if mistaken else ()


def letters_in(header):
    return [match.start() for match in ALONE.finditer(header)]


def held(header, place):
    return header[:place] + HELD + header[place + 1 :]


def without_letters(header, places):
    """(name, unit) of a header in which the letters at `places` are no unit."""
    bare = header
    for place in places:
        bare = held(bare, place)
    name, unit = name_and_unit(bare)
    for place in places:
        name = name.replace(HELD, header[place], 1)
    return name, unit


def rank_of_unit(text):
    unit = unit_in_brackets(text)
    return 2 if unit in WRITTEN else 1 if unit else 0


def unit_in_brackets(text):
    bare = "".join(text.translate(ALIKE).lower().split())
    return unit_of(text) or (bare if bare in OTHERS else "")


def to_celsius(values, unit):
    """Temperatures in °C, from '°C', '°F' or 'K'."""
    return TO_CELSIUS[unit](values)
