"""Units: how people write them, and readings brought to °C, ppm and seconds.

0 °C is 273.15 K by definition (SI Brochure, 9th edition, 2.3.1); 32 °F is 0 °C and 180 °F make 100 K (NIST SP 811, B.8).
"""

import re

import numpy as np

WRITTEN = {
    # øC and ¡C: the degree sign of older code pages, read as Latin-1.
    "°C": "°c degc deg_c deg.c celsius centigrade grad_c gradc c øc ¡c".split(),
    "°F": "°f degf deg_f deg.f fahrenheit f øf ¡f".split(),
    "K": "k kelvin °k degk".split(),
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
UNITS = {written: unit for unit, ways in WRITTEN.items() for written in ways}
TEMPERATURES = ("°C", "°F", "K")
SECONDS = {"ms": 0.001, "s": 1.0, "min": 60.0, "h": 3600.0, "d": 86400.0}
PER_PPM = {"ppm": 1.0, "ppb": 0.001, "%": 10_000.0}
# The degree sign and what is typed for it: ordinal indicator, ring above; and the one-letter signs of Unicode.
ALIKE = str.maketrans({"º": "°", "˚": "°", "℃": "°C", "℉": "°F", "K": "K", "\u00a0": " ", "\u202f": " "})
TO_CELSIUS = {
    "°C": lambda degrees: degrees,
    "°F": lambda degrees: (degrees - 32) / 1.8,
    "K": lambda kelvins: np.round(kelvins - 273.15, 9),  # 294.55 K is 21.4 °C, not 21.400000000000034
}


def unit_of(text):
    """The unit that `text` writes ('degC', '° C', 'Minutes'), or ''."""
    bare = text.translate(ALIKE).strip(" .").lower()
    for way in (bare, bare.replace(" ", ""), bare.replace(" ", "_")):
        if way in UNITS:
            return UNITS[way]
    return ""


IN_BRACKETS = re.compile(r"^(.*?)\s*[(\[{<]\s*([^()\[\]{}<>]*)\s*[)\]}>]\s*(.*)$", re.DOTALL)
AT_THE_END = re.compile(
    r"^(.*?)(?:\s*[/,;:]\s*|_|\s+|\.\s*)(?:in\s+)?((?:deg|°|º|˚|grad)?[\s_.]?[^\s_/,;:.]+|w/m(?:²|2|\^2))$", re.DOTALL | re.IGNORECASE
)


def name_and_unit(header):
    """('treated', '°C') from 'treated_degC', 'Treated (°C)', 'treated / °C', 'treated in degC'; the unit is '' if none is written."""
    header = " ".join(header.translate(ALIKE).split())
    inside = IN_BRACKETS.match(header)
    if inside and unit_of(inside[2]):
        return f"{inside[1]} {inside[3]}".strip(" _:,/"), unit_of(inside[2])
    ending = AT_THE_END.match(header)
    if ending and unit_of(ending[2]):
        return ending[1].strip(" _:,/"), unit_of(ending[2])
    return header, unit_of(header) if len(header) > 1 else ""  # 'C' alone may be the control


def to_celsius(values, unit):
    """Temperatures in °C, from '°C', '°F' or 'K'."""
    return TO_CELSIUS[unit](values)
