"""A whole column of stamps as arrays: cell by cell, or all at once where the cells have the same length and form."""

import re
from dataclasses import dataclass, replace

import numpy as np

from kit.intake.forms import STAMP, stamp

MANY = 200  # fewer cells are read as quickly one by one
ZERO, NINE = ord("0"), ord("9")
DIGITS = re.compile(r"\d+", re.ASCII)


@dataclass(frozen=True, eq=False)
class Stamps:
    """What each cell says, as in `Stamp`. `time_s` has one value a cell (NaN in an empty one).

    `date` (n x 3, zeros without one), `half` and `zone` have one value for each stretch of cells in which they stay the same, of
    the given `lengths`. `form` is what all cells share: (order of the date, how many numbers the time has, has a half day, has a zone).
    """

    form: tuple
    time_s: np.ndarray
    lengths: np.ndarray
    date: np.ndarray
    half: np.ndarray
    zone: np.ndarray

    def spread(self, values):
        """One value a cell from one a stretch."""
        return np.repeat(values, self.lengths)


def form_of(each):
    """What one `Stamp` must share with the others of its column."""
    return each.order, each.parts, bool(each.half), bool(each.zone)


def gathered(stamps):
    """The `Stamps` of a list in which None stands for an empty cell; all others have one form."""
    first = max((each for each in stamps if each), key=lambda each: (each.parts, bool(each.half)))  # the one written most fully
    empty = first._replace(time_s=np.nan)
    filled = [each or empty for each in stamps]
    dates, halves, zones = ([getattr(each, name) for each in filled] for name in ("date", "half", "zone"))
    times = np.array([each.time_s for each in filled])
    lengths = np.ones(len(filled), dtype=int)
    return Stamps(form_of(first), times, lengths, np.array([each or (0, 0, 0) for each in dates]), np.array(halves), np.array(zones))


def all_at_once(cells):
    """The `Stamps` of an array of texts or bytes; None unless the times in all of them are written digit for digit alike."""
    matrix = as_bytes(cells)
    match = None if matrix is None else STAMP.fullmatch(text_of(matrix[0]))
    if not match or not match["time"] or stamp(match[0]) is None or stamp(match[0]).order == "md":
        return None
    start, end = match.span("time")
    time_s = times_of(matrix[:, start:end], match["time"])
    return None if time_s is None else with_dates(matrix, np.delete(matrix, slice(start, end), axis=1), time_s, (start, end))


def as_bytes(cells):
    """A matrix of bytes, one row a cell; None unless there are many cells, all in ASCII and of one length."""
    if len(cells) < MANY:
        return None
    try:
        cells = cells if cells.dtype.kind == "S" else np.array(cells.tolist(), dtype="S")
    except UnicodeEncodeError:
        return None
    matrix = np.ascontiguousarray(cells).view(np.uint8).reshape(len(cells), -1)
    length = len(cells[0])
    return matrix[:, :length] if length and matrix[:, :length].all() and not matrix[:, length:].any() and matrix.max() < 128 else None


def text_of(row):
    return row.tobytes().decode("ascii")


def times_of(matrix, written):
    """Seconds from times written like `written` ('10:00:02.5'); None if one is not, or has too many minutes or seconds."""
    digit = np.array([sign.isdigit() for sign in written])
    digits = matrix[:, digit]
    if ":" not in written or not (matrix[:, ~digit] == matrix[0, ~digit]).all() or digits.min() < ZERO or digits.max() > NINE:
        return None
    numbers = [number_in(matrix[:, slice(*run.span())]) for run in DIGITS.finditer(written)]
    fraction = numbers.pop() / 10 ** len(DIGITS.findall(written)[-1]) if re.search("[.,]", written) else 0
    if numbers[1].max() > 59 or numbers[-1].max() > 60:
        return None
    weights = (3600, 60, 1)[: len(numbers)]
    return sum(weight * number for weight, number in zip(weights, numbers)) + weights[-1] * fraction


def number_in(digits):
    """The numbers that rows of digits write."""
    value = np.zeros(len(digits))
    for digit in digits.T:
        value *= 10
        value += digit - float(ZERO)
    return value


def span_of_time(text):
    """Where the time stands in a stamp; None if it has to be written otherwise first."""
    match = STAMP.fullmatch(text)
    return match and match.span("time")


def with_dates(matrix, around, time_s, span):
    """The `Stamps` with date, half and zone from what stands around the times, read once for each stretch where that stays the same."""
    starts = np.flatnonzero(np.r_[True, (around[1:] != around[:-1]).any(axis=1)])
    if len(starts) > max(20, len(matrix) // 10):
        return None
    texts = [text_of(matrix[start]) for start in starts]
    stamps = [stamp(text) for text in texts]
    if None in stamps or len(set(map(form_of, stamps))) > 1 or any(span_of_time(text) != span for text in texts):
        return None
    return replace(gathered(stamps), time_s=time_s, lengths=np.diff(np.r_[starts, len(matrix)]))
