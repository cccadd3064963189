"""One cell that holds a time: a stamp with a date, a time of day, or a time since the start."""

import re
from typing import NamedTuple

MONTHS = {name: place for place, name in enumerate("jan feb mar apr may jun jul aug sep oct nov dec".split(), 1)}
MONTH = r"(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]{0,6}\.?"
STAMP = re.compile(
    r"(?:(?:mon|tue|wed|thu|fri|sat|sun)[a-z]{0,6}\.?,?\ )?"
    r"(?:(?P<ymd>\d{4}([-/.])\d{1,2}\2\d{1,2})"
    r"|(?P<dense>\d{8})(?=T|\ \d)"
    r"|(?P<open>\d{1,2}([-/.])\d{1,2}\5(?:\d{4}|\d\d))"
    rf"|(?P<dmy>\d{{1,2}}[-/.\ ]{{0,2}}{MONTH}[-/.,\ ]{{0,2}}(?:\d{{4}}|\d\d))"
    rf"|(?P<mdy>{MONTH}\ \d{{1,2}},?\ \d{{4}}))?"
    r"(?:(?:(?<=\d)(?:T|,?\ {1,3}|(?=$)))?"
    r"(?P<time>\d{1,4}:\d\d(?::\d\d)?(?:[.,]\d{1,9})?|(?<=T)\d{6}(?:[.,]\d{1,9})?|(?<=T)\d{4})?"
    r"(?:\ ?(?P<half>[ap])\.?m\.?)?"
    r"(?:\ ?(?P<zone>Z|[+-]\d\d(?::?\d\d)?|(?-i:[A-Z]{3,5})))?)",
    re.ASCII | re.IGNORECASE | re.VERBOSE,
)
SPOKEN = re.compile(
    r"(?=\d|PT)(?:PT)?(?:(?P<h>\d{1,3}(?:[.,]\d{1,6})?)\ ?h(?:ours?|r)?\ ?)?(?:(?P<m>\d{1,5}(?:[.,]\d{1,6})?)\ ?(?:m|min|minutes?|')\ ?)?"
    r"(?:(?P<s>\d{1,6}(?:[.,]\d{1,6})?)\ ?(?:s|sec|seconds?|\"|'')?)?",
    re.ASCII | re.IGNORECASE | re.VERBOSE,
)
SPOKEN_PARTS = 4
PARTS = re.compile(r"\d+|[a-z]+", re.ASCII | re.IGNORECASE)


class Stamp(NamedTuple):
    """What one cell says. `order` tells how the date is written ('ymd', 'dmy', 'mdy', 'open'; '' without one), `date` its three
    numbers as written, `time_s` the time in seconds (0 of a bare date), `parts` how many numbers the time has, `half` 'a', 'p' or '',
    `zone` as written. A time of two parts (`parts` 2) counts as hours and minutes until the clock stage knows better."""

    order: str
    date: tuple
    time_s: float
    parts: int
    half: str
    zone: str


def stamp(cell):
    """The `Stamp` in a tidied cell, or None. '21.4' and '7' are numbers, not stamps."""
    match = STAMP.fullmatch(cell)
    if not match or not (match["time"] or dated(match)):
        return spoken(cell)
    order = dated(match) or ""
    seconds, parts = time_of_day(match["time"] or "")
    return (
        None
        if parts < 0
        else Stamp(
            order, date_numbers(order, match[order]) if order else (), seconds, parts, (match["half"] or "").lower(), match["zone"] or ""
        )
    )


def looks_like_time(cell):
    """Could this cell be a stamp?"""
    return bool(cell) and (cell[0].isdigit() or cell[0].isalpha()) and stamp(cell) is not None


def dated(match):
    return next((order for order in ("ymd", "dense", "open", "dmy", "mdy") if match[order]), None)


def date_numbers(order, written):
    if order == "dense":
        return int(written[:4]), int(written[4:6]), int(written[6:])
    return tuple(int(part) if part.isdigit() else MONTHS[part[:3].lower()] for part in PARTS.findall(written))


def time_of_day(written):
    """(seconds, how many numbers): '10:02:30.5' is (36150.5, 3), '1002' after a T (36120.0, 2), '' is (0.0, 0)."""
    if not written:
        return 0.0, 0
    whole, _, fraction = written.replace(",", ".").partition(".")
    numbers = whole.split(":") if ":" in whole else [whole[place : place + 2] for place in range(0, len(whole), 2)]
    hours, minutes, *rest = map(int, numbers)
    if minutes > 59 or rest and rest[0] > 60:
        return float("nan"), -1
    last = float(f"0.{fraction or 0}")
    return (hours * 3600 + minutes * 60 + (rest[0] + last), 3) if rest else (hours * 3600 + minutes * 60 + 60 * last, 2)


def spoken(cell):
    """'5 min 30 s', '5m30s', '1 h 2 min', 'PT5M30S' (ISO 8601 duration): a time since the start."""
    match = SPOKEN.fullmatch(cell)
    if not match or not (match["h"] or match["m"] or not cell[-1:].isdigit() and match["s"]):
        return None
    hours, minutes, seconds = (float((match[unit] or "0").replace(",", ".")) for unit in "hms")
    return Stamp("", (), 3600 * hours + 60 * minutes + seconds, SPOKEN_PARTS, "", "")
