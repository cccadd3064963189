"""The column that the caller names: by number, by its header, or by a part of it."""

import re
from pathlib import PurePath


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
    what = f"No single column is called {str(wanted)[:30]!r}."
    raise table.fault(what, keyword=keyword, choices=table.choices(range(len(table.columns))))


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
