"""One thermometer in two columns: once in °C and once in °F or K, or simply twice. It must not pass for both vessels; and two thermometers
called C and F must not pass for °C and °F."""

from itertools import permutations

import numpy as np

from kit.intake.columns.kinds import words_of
from kit.intake.forms import letters_in, TEMPERATURES, to_celsius
from kit.words import listed

# b = factor a + zero: °F and K from °C (NIST SP 811, B.8; SI Brochure, 9th edition, 2.3.1).
LINES = (("in °F", 1.8, 32.0), ("in K", 1.0, 273.15))
LEAST_ROWS, LEAST_AGAIN = 5, 10
FINE_C = 0.3  # columns coarser than this are twins only if they are called alike, too
ABOUT_C, BY_CHANCE = 10.0, 0.01  # another thermometer may show anything within so many degrees; that it fits as often is no twin


def without_twins(table, named, again=True):
    """The table with the role 'twin' for every column that shows the thermometer of another one; those at the places `named` stay.
    `again`: may two columns be twins that hold the very same numbers?"""
    places = [place for place, column in enumerate(table.columns) if may_be_twin(column)]
    for at, one in enumerate(places):
        for other in places[at + 1 :]:
            if "twin" in (table.columns[one].role, table.columns[other].role):
                continue
            for first, second in ((one, other), (other, one)):
                how = how_same(table.columns[first], table.columns[second])
                if how and (again or how != "again") and second not in named:
                    words = f"Column '{table.columns[second].header}' is '{table.columns[first].header}' {how}: one thermometer, not two."
                    table = table.with_column(second, role="twin").said(words)
                    break
    return table


def may_be_twin(column):
    return column.numeric and not column.role and column.unit in (*TEMPERATURES, "") and not column.odd


def how_same(one, other):
    """'in °F', 'in K' or 'again' if `other` shows the readings of `one` so, to their rounding; '' if not."""
    both = np.isfinite(one.values) & np.isfinite(other.values)
    first, second = one.values[both], other.values[both]
    distinct = len(np.unique(first[:1000]))
    if len(first) < LEAST_ROWS or both.mean() < 0.5:
        return ""
    if distinct >= LEAST_AGAIN and np.array_equal(first, second):
        return "again"
    called_alike = not one.nameless and words_of(one.name) == words_of(other.name)
    for how, factor, zero in LINES:
        give = (factor * rounding(first) + rounding(second)) / 1.5  # each is rounded or cut off
        telling = give <= FINE_C and (give / ABOUT_C) ** distinct <= BY_CHANCE
        if (telling or called_alike) and (np.abs(second - factor * first - zero) <= give + 1e-9).all():
            return how
    return ""


def rounding(values):
    """The step to which readings are written: 0.1 of 21.4 and 21.5."""
    for places in range(5):
        if np.allclose(values, np.round(values, places), atol=1e-9, rtol=0):
            return 10.0**-places
    return 1e-5


def without_doubtful_units(table):
    """The table without the units of columns alike but for the letter, as 'Temp (C)' and 'Temp (F)', which would lie further apart by them."""
    warm = [place for place, column in enumerate(table.columns) if may_be_twin(column) and column.unit and np.isfinite(column.values).any()]
    doubtful = {one for one, other in permutations(warm, 2) if named_by_letters(table.columns[one], table.columns[other])}
    for place in doubtful:
        table = table.with_column(place, unit="", name=table.columns[place].header)
    if not doubtful:
        return table
    headers = listed(repr(table.columns[place].header) for place in sorted(doubtful))
    return table.said(f"The letters that tell {headers} apart are taken as names: as units they would put the readings further apart.")


def named_by_letters(one, other):
    """Are the headers alike but for a single letter, and the readings nearer to each other as written than by the units it may mean?"""
    pairs = zip(one.header, other.header)
    apart = [place for place, (first, second) in enumerate(pairs) if first != second]
    if one.unit == other.unit or len(one.header) != len(other.header) or len(apart) != 1 or apart[0] not in letters_in(one.header):
        return False
    as_written, by_units = ((np.nanmedian(first) - np.nanmedian(second)) for first, second in (
        (one.values, other.values), (to_celsius(one.values, one.unit), to_celsius(other.values, other.unit)),
    ))  # fmt: skip
    return bool(abs(as_written) < abs(by_units))
