"""Too few thermometers, or columns that may be none: only their readings would let them be one, and they begin far from all others, as humidity does."""

import numpy as np

from kit.intake.columns.kinds import thermometer_rank
from kit.words import listed

FAR = 8.0  # two vessels matched in one room begin nearer to each other, in °C, °F or K
FIRST, LOOKED_AT = 5, 1000
ONE_ONLY = "If not, this file holds one thermometer, and a run needs two: repeat it with both."
CHOOSE_NOT = "If not, choose others."
WHY_BOTH = "Only a control shows what would have happened anyway."


def no_thermometer(table, vessel, found):
    """The fault for a record with too few thermometers; `found` are the places of all that it has."""
    only = f"There is only one thermometer here, {table.columns[found[0]].header!r}: none for the {vessel} vessel. " if len(found) == 1 else ""
    what = f"{only or f'There is no thermometer for the {vessel} vessel here. '}{WHY_BOTH}"
    do = f"If it is there, say {vessel}= with its column; if not, repeat the run with both."
    return table.fault(what, do, keyword=vessel)


def doubted(table, places):
    """Those of the `places` of thermometers that may be none; where all begin far from each other, all but the first."""
    starts = {place: start_of(table.columns[place]) for place in sorted(places) if table.columns[place].numeric}
    lone = [place for place, start in starts.items() if all(abs(start - each) > FAR for other, each in starts.items() if other != place)]
    unnamed = [place for place in lone if thermometer_rank(table.columns[place]) == 2]
    return unnamed if len(unnamed) < len(starts) else unnamed[1:]


def start_of(column):
    known = column.values[:LOOKED_AT]
    known = known[np.isfinite(known)]
    return float(np.median(known[:FIRST])) if len(known) else np.nan


def doubt_about(table, places):
    """The question whether a doubted column is a thermometer, to be put before the one that asks for a vessel; '' if none is doubted."""
    strange = doubted(table, places)
    if not strange:
        return ""
    first = min(set(places) - set(strange))
    called, other = listed(repr(table.columns[place].header) for place in strange), table.columns[first].header
    began = listed(f"{start_of(table.columns[place]):g}" for place in strange)
    ask, it, begins = ("Is {} another thermometer?", "it", "begins") if len(strange) == 1 else ("Are {} thermometers, too?", "they", "begin")
    why = f"No name tells, and {it} {begins} at {began}, far from the {start_of(table.columns[first]):g} of '{other}', as humidity may."
    return f"{ask.format(called)} {why} {ONE_ONLY if len(places) - len(strange) < 2 else CHOOSE_NOT} "

