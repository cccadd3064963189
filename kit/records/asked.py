"""What the caller said about a record: the keywords of `read_run`, checked and in one place."""

from dataclasses import dataclass, replace
from pathlib import PurePath

from kit.faults import IntakeFault
from kit.words import listed

ROLES = ("treated", "control", "room", "gas", "light")
CLOCKS = ("ms", "s", "min", "h", "d", "mm:ss", "h:mm", "day first", "month first", "year first")


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
        """The words of `clock`, one or several, as a tuple."""
        return tuple(" ".join(str(word).replace("-", " ").split()).lower() for word in several(self.clock) if not is_number(word))

    @property
    def clock_numbers(self):
        """The numbers in `clock`: by how many seconds the clock of each further file is ahead of the first file's."""
        return tuple(word for word in several(self.clock) if is_number(word))

    def of_file(self, place):
        """These words for one file of several: a list of time columns holds one for each."""
        times = several(self.time)
        return replace(self, time=times[min(place, len(times) - 1)]) if times else self

    def clock_among(self, choices):
        """The first of the caller's words on clocks that is one of `choices`, or None."""
        return next((word for word in self.clocks if word in choices), None)


def several(word):
    """One word or several as a tuple, without None."""
    return tuple(each for each in (word if isinstance(word, (list, tuple)) else (word,)) if each is not None)


def is_number(word):
    return isinstance(word, (int, float)) and not isinstance(word, bool)


def place_named(table, wanted, keyword):
    """Where the column stands that the caller calls `wanted`: by number, by header, or by words that one header alone holds."""
    if isinstance(wanted, int) and not isinstance(wanted, bool):
        if 1 <= wanted <= len(table.columns):
            return wanted - 1
    else:
        for same in (exactly, without_unit, holding):
            places = [place for place, column in enumerate(table.columns) if same(column, str(wanted))]
            if len(places) == 1:
                return places[0]
    raise IntakeFault(
        f"No single column is called {wanted!r}. There are {listed(repr(column.header) for column in table.columns[:8])}.",
        f"Say {keyword}= with one of them, or its number from 1 to {len(table.columns)}.", file=table.file, keyword=keyword,
    )  # fmt: skip


def exactly(column, wanted):
    return column.header.strip() == wanted.strip()


def without_unit(column, wanted):
    return wanted.strip().lower() in (column.name.lower(), column.header.strip().lower())


def holding(column, wanted):
    """Does the header hold these words? A file's name counts without its ending."""
    return PurePath(wanted.strip().lower()).stem in column.header.lower() if wanted.strip() else False
