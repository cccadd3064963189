"""What the caller said about a record: the keywords of `read_run`, checked and in one place."""

import re
from dataclasses import dataclass, replace
from math import isfinite
from pathlib import PurePath

from kit.faults import IntakeFault
from kit.intake.forms import SECONDS, unit_of
from kit.words import listed

ROLES = ("treated", "control", "room", "gas", "light")
UNITS_OF_TIME = (*SECONDS, "mm:ss", "h:mm", "h:mm:ss")
ORDERS_OF_DATE = ("day first", "month first", "year first")
WAYS = ("summer time", "as written", "shared event", "sorted", "set back")
COUNTS = re.compile(r"(\d{1,6}(?:[.,]\d{1,6})?) ?(ms|s|min|h|d)")


@dataclass(frozen=True)
class Asked:
    """The keywords of `read_run`. Column keywords hold a header, a part of one, or a column's number counted from 1."""

    treated: object = None
    control: object = None
    room: object = None
    gas: object = None
    light: object = None
    time: object = None
    unit: object = None
    clock: object = None
    decimal: object = None

    @property
    def clocks(self):
        """The words of `clock`, one or several, as a tuple. A fault for one that means nothing here."""
        return tuple(clock_word(word) for word in several(self.clock) if not is_number(word))

    @property
    def clock_numbers(self):
        """The numbers in `clock`: by how many seconds the clock of each further file is ahead of the first file's."""
        return tuple(float(word) for word in several(self.clock) if is_number(word))

    @property
    def count_s(self):
        """(seconds that each count of the time column stands for, as the caller wrote it); None without such a word."""
        match = next((match for word in self.clocks if (match := COUNTS.fullmatch(word))), None)
        return match and (float(match[1].replace(",", ".")) * SECONDS[match[2]], match[0])

    def of_file(self, place):
        """These words for one file of several: a list of time columns holds one for each."""
        times = several(self.time)
        return replace(self, time=times[min(place, len(times) - 1)]) if times else self

    def clock_among(self, choices):
        """The first of the caller's words on clocks that is one of `choices`, or None."""
        return next((word for word in self.clocks if word in choices), None)


def clock_word(word):
    """A word of `clock` as the kit writes it: 'day first' for 'Day-first', 'min' for 'minutes'."""
    plain = " ".join(str(word).replace("-", " ").split()).lower()
    plain = unit_of(plain) if unit_of(plain) in UNITS_OF_TIME else plain
    if plain not in (*UNITS_OF_TIME, *ORDERS_OF_DATE, *WAYS) and not COUNTS.fullmatch(plain):
        known = listed((repr(each) for each in (*UNITS_OF_TIME[1:7], *ORDERS_OF_DATE[:2], *WAYS)), "or")
        raise IntakeFault(f"clock={str(word)[:20]!r} means nothing here.", f"Say {known}.", keyword="clock")
    return plain


def several(word):
    """One word or several as a tuple, without None."""
    return tuple(each for each in (word if isinstance(word, (list, tuple)) else (word,)) if each is not None)


def is_number(word):
    return isinstance(word, (int, float)) and not isinstance(word, bool) and isfinite(word)


def place_named(table, wanted, keyword):
    """Where the column stands that the caller calls `wanted`: by number, by header, or by words that one header alone holds."""
    if isinstance(wanted, int) and not isinstance(wanted, bool):
        if 1 <= wanted <= len(table.columns):
            return wanted - 1
    else:
        for same in (exactly, without_unit, holding_word, holding):
            free = [place for place, column in enumerate(table.columns) if column.role != "time" or keyword == "time"]
            places = [place for place in free if same(table.columns[place], str(wanted))]
            if len(places) == 1:
                return places[0]
    headers = listed(repr(column.header) for column in table.columns[:6])
    do = f"Say {keyword}= with one of them, or its number from 1 to {len(table.columns)}."
    raise table.fault(f"No single column is called {str(wanted)[:30]!r}. There are {headers}.", do, keyword=keyword)


def exactly(column, wanted):
    return column.header.strip() == wanted.strip()


def without_unit(column, wanted):
    return wanted.strip().lower() in (column.name.lower(), column.header.strip().lower())


def holding_word(column, wanted):
    """Does the header hold these words as words? 'left' stands in 'left-logger: T', 'a' does not stand in 'elapsed'."""
    words = re.escape(PurePath(wanted.strip().lower()).stem)
    return bool(words) and re.search(rf"(?<!\w){words}(?!\w)", column.header.lower()) is not None


def holding(column, wanted):
    """Does the header hold these words? A file's name counts without its ending."""
    return PurePath(wanted.strip().lower()).stem in column.header.lower() if wanted.strip() else False
