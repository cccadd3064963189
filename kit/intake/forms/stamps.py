"""One cell that holds a time: a stamp with a date, a time of day, or a time since the start."""

import re
from typing import NamedTuple

MONTHS = {name: place for place, name in enumerate("jan feb mar apr may jun jul aug sep oct nov dec".split(), 1)}
MONTH = r"(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]{0,6}\.?"
STAMP = re.compile(
    r"(?:(?:mon|tue|wed|thu|fri|sat|sun)[a-z]{0,6}\.?,?\ )?"
    r"(?:(?P<ymd>\d{4}([-/._])\d{1,2}\2\d{1,2})"
    r"|(?P<dense>\d{8})(?=[T _-]+\d)"
    r"|(?P<open>\d{1,2}([-/._])\d{1,2}\5(?:\d{4}|\d\d))"
    rf"|(?P<dmy>\d{{1,2}}[-/.\ ]{{0,2}}{MONTH}[-/.,\ ]{{0,2}}(?:\d{{4}}|\d\d))"
    rf"|(?P<mdy>{MONTH}\ \d{{1,2}},?\ \d{{4}}))?"
    r"(?:(?:(?<=\d)(?:T|[,;:@/_-]?\ {1,3}(?:-\ )?|[,;:@/_-]|(?=$)))?"
    r"(?P<time>\d{1,4}:\d{1,2}(?::\d{1,2})?(?:[.,]\d{1,9}|:\d{3})?"
    r"|(?<=\d[T _-])\d{1,2}(?P<mark>[.-])\d\d(?P=mark)\d\d|(?<=[T_-])\d{6}(?:[.,]\d{1,9})?|(?<=T)\d{4})?"
    r"(?:\ ?(?P<half>[ap])\.?m\.?)?"
    r"(?:\ ?(?P<zone>Z|(?:UTC|GMT)?[+-]\d\d(?::?\d\d)?|(?-i:[A-Z]{3,5})))?)",
    re.ASCII | re.IGNORECASE | re.VERBOSE,
)
# 'Sun Mar  1 10:00:02 CET 2026', as the C library's asctime and the command `date` write it (POSIX.1).
YEAR_LAST = re.compile(rf"(?:[a-z]{{3}},?\ )?({MONTH})\ {{1,2}}(\d{{1,2}})\ (\d\d?:\d\d:\d\d)(?:\ ([A-Z]{{3,5}}))?\ (\d{{4}})", re.IGNORECASE)
# 'Mar  1 10:00:02', as system logs write it (RFC 3164, 4.1.2), or '1 March 10:00:02': a date that names no year.
NO_YEAR = re.compile(
    rf"(?:[a-z]{{3,9}}\.?,?[ _])?(?:(?P<month>{MONTH})[ _.-]{{0,3}}(?P<day>\d{{1,2}})"
    rf"|(?P<first>\d{{1,2}})\.?[ _-]{{0,2}}(?P<second>{MONTH}))"
    r"[ _,T-]{1,3}(?P<time>\d{1,2}:\d\d(?::\d\d(?:[.,]\d{1,9})?)?)(?: ?(?P<half>[ap])\.?m\.?)?(?: (?P<zone>(?-i:[A-Z]{3,5})))?",
    re.ASCII | re.IGNORECASE,
)
BRACKETS = str.maketrans("[]()'", "     ")
SPOKEN = re.compile(
    r"(?=\d|PT)(?:PT)?(?:(?P<h>\d{1,3}(?:[.,]\d{1,6})?)\ ?h(?:ours?|r)?\ ?)?(?:(?P<m>\d{1,5}(?:[.,]\d{1,6})?)\ ?(?:m|min|minutes?|')\ ?)?"
    r"(?:(?P<s>\d{1,6}(?:[.,]\d{1,6})?)\ ?(?:s|sec|seconds?|\"|'')?)?",
    re.ASCII | re.IGNORECASE | re.VERBOSE,
)
SPOKEN_PARTS = 4
# '0 days 00:00:10', '1 day, 2:03:04': how Python and its libraries write a span of time.
DAYS = re.compile(r"(\d{1,4})\ ?d(?:ays?)?,?\ (\d{1,2}:\d\d:\d\d(?:\.\d{1,9})?)", re.ASCII | re.IGNORECASE)
PARTS = re.compile(r"\d+|[a-z]+", re.ASCII | re.IGNORECASE)
CLOCK = re.compile(r"(\d{1,4})[:.-](\d{1,2})(?:[:.-](\d{1,2}))?(?:[.,:](\d{1,9}))?", re.ASCII)


class Stamp(NamedTuple):
    """What one cell says. `order` tells how the date is written ('ymd', 'dmy', 'mdy', 'open'; 'md' if it names no year, which then is 0;
    '' without a date), `date` its three numbers as written, `time_s` the time in seconds (0 of a bare date), `parts` how many numbers the
    time has, `half` 'a', 'p' or '',
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
    if match and (match["time"] or dated(match)):
        return match["dmy"] and " " in cell and without_year(cell) or stamp_of(match)  # '14 Mar 10:00:02' is of no year 10
    return spoken(cell) or rewritten(cell)


def stamp_of(match):
    order = dated(match) or ""
    seconds, parts = time_of_day(match["time"] or "")
    date = date_numbers(order, match[order]) if order else ()
    return None if parts < 0 else Stamp(order, date, seconds, parts, (match["half"] or "").lower(), match["zone"] or "")


def rewritten(cell):
    """The stamp in a cell with brackets around it or its time, or with the year behind the time."""
    if set(cell) & set("[]()'"):
        bare = " ".join(cell.translate(BRACKETS).split())
        return stamp(bare) if bare != cell else None
    year_last = YEAR_LAST.fullmatch(cell)
    if not year_last:
        return without_year(cell)
    month, day, time, zone, year = year_last.groups()
    return stamp(" ".join(filter(None, (day, month, year, time, zone))))


def without_year(cell):
    """The stamp in a cell whose date has a month by name, a day, and no year."""
    match = NO_YEAR.fullmatch(cell)
    if not match:
        return None
    seconds, parts = time_of_day(match["time"])
    month = MONTHS[(match["month"] or match["second"])[:3].lower()]
    half, zone = (match["half"] or "").lower(), match["zone"] or ""
    return None if parts < 0 else Stamp("md", (0, month, int(match["day"] or match["first"])), seconds, parts, half, zone)


def looks_like_time(cell):
    """Could this cell be a stamp?"""
    return bool(cell) and (cell[0].isdigit() or cell[0].isalpha() or cell[0] in "[('") and stamp(cell) is not None


def dated(match):
    return next((order for order in ("ymd", "dense", "open", "dmy", "mdy") if match[order]), None)


def date_numbers(order, written):
    if order == "dense":
        return int(written[:4]), int(written[4:6]), int(written[6:])
    return tuple(int(part) if part.isdigit() else MONTHS[part[:3].lower()] for part in PARTS.findall(written))


def time_of_day(written):
    """(seconds, how many numbers): '10:02:30.5' is (36150.5, 3), '1002' after a T (36120.0, 2), '' is (0.0, 0); no such time: (nan, -1)."""
    if not written:
        return 0.0, 0
    match = CLOCK.fullmatch(written)
    if match:
        hours, minutes, seconds, fraction = match.groups()
    else:
        whole, _, fraction = written.replace(",", ".").partition(".")
        hours, minutes, seconds = whole[:2], whole[2:4], whole[4:] or None
    if int(minutes) > 59 or int(seconds or 0) > 60:
        return float("nan"), -1
    last = float(f"0.{fraction or 0}")
    start = int(hours) * 3600 + int(minutes) * 60
    return (start + 60 * last, 2) if seconds is None else (start + (int(seconds) + last), 3)


def spoken(cell):
    """'5 min 30 s', '5m30s', '0 days 00:05:30', 'PT5M30S' (ISO 8601 duration): a time since the start."""
    days = DAYS.fullmatch(cell)
    if days:
        return Stamp("", (), 86400 * int(days[1]) + time_of_day(days[2])[0], SPOKEN_PARTS, "", "")
    match = SPOKEN.fullmatch(cell)
    if not match or not (match["h"] or match["m"] or not cell[-1:].isdigit() and match["s"]):
        return None
    hours, minutes, seconds = (float((match[unit] or "0").replace(",", ".")) for unit in "hms")
    return Stamp("", (), 3600 * hours + 60 * minutes + seconds, SPOKEN_PARTS, "", "")
