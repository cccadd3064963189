"""Dates and times written as one number: 20160718144336, or with the year in the middle, 7182016144336, is 18 July 2016, 14:43:36."""

import numpy as np

from kit.intake.given import as_texts
from kit.intake.time.stampcolumn import Clock, DAY, days_since_1970
from kit.records import span

DENSE = (19700101000000, 20991231235959)
EARLIEST = 1970
MOST = (31, 31, 2099, 23, 59, 60)  # of day or month, month or day, year, hour, minute, second


def year_inside(column):
    """The texts '07/18/2016 14:43:36' of such numbers, which leave open what the day is; None for a column that holds others."""
    values = np.nan_to_num(column.values)
    if not len(values) or values.max() >= 1e14 or values.max() < 1e12:
        return None
    parts = [values // 10**power % size for power, size in ((12, 100), (10, 100), (6, 10_000), (4, 100), (2, 100), (0, 100))]
    known = np.isfinite(column.values)
    first, second, year = (part[known] for part in parts[:3])
    month = np.minimum(first, second)
    sound = all((part <= most).all() for part, most in zip(parts, MOST)) and (year >= EARLIEST).all() and not (values % 1).any()
    if not sound or month.min() < 1 or month.max() > 12:
        return None
    rows = zip(*(part.astype(int).tolist() for part in parts), known.tolist())
    return as_texts(["{:02d}/{:02d}/{:04d} {:02d}:{:02d}:{:02d}".format(*row) if there else "" for *row, there in rows])


def is_dense(column):
    """Are these numbers that begin with a year and may be a date and a time?"""
    low, high = span(column.values)
    return DENSE[0] <= low and high <= DENSE[1]


def dense_number(column):
    """The `Clock` of numbers like 20260301100002: date and time written without signs between (ISO 8601-1, basic format)."""
    parts = [column.values // 10**power % 100 for power in (8, 6, 4, 2, 0)]
    if any((part > most).any() for part, most in zip(parts, (12, 31, 24, 59, 60))):
        return None
    month, day, hour, minute, second = parts
    days = days_since_1970(np.column_stack([column.values // 10**10, month, day]), (0, 1, 2))
    seconds = DAY * days + 3600 * hour + 60 * minute + second
    remark = f"Times in column '{column.header}' are dates and times written as one number."
    return None if np.isnan(days).any() else counted_from_midnight(seconds / DAY, seconds, remark, local=True)


def counted_from_midnight(days, seconds, remark, local=False):
    midnight = int(np.nanmin(days))
    return Clock(np.round(seconds - midnight * DAY, 6), remark, midnight, local=local, days=(("", midnight),))
