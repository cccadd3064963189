"""How one cell may be written: numbers, units, dates and times of day."""

from kit.intake.forms.numbers import (
    decimal_mark,
    FAILED,
    grouped,
    letters_in,
    looks_like_measure,
    looks_like_number,
    measure,
    MISSING,
    name_and_unit,
    names_and_units,
    PER_PPM,
    SECONDS,
    STRICT,
    TEMPERATURES,
    tidied,
    to_celsius,
    unit_of,
)
from kit.intake.forms.stamps import looks_like_time, SPOKEN_PARTS, STAMP, stamp

__all__ = [
    "decimal_mark", "FAILED", "grouped", "letters_in", "looks_like_measure", "looks_like_number", "looks_like_time", "measure",
    "MISSING", "name_and_unit", "names_and_units", "PER_PPM", "SECONDS", "SPOKEN_PARTS", "STAMP", "stamp", "STRICT", "TEMPERATURES", "tidied",
    "to_celsius", "unit_of",
]  # fmt: skip
