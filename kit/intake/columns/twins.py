"""One thermometer in two columns: once in °C and once in °F or K, or simply twice. It must not pass for both vessels."""

import numpy as np

from kit.intake.columns.kinds import words_of
from kit.intake.forms import TEMPERATURES

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
