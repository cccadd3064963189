"""A whole column of stamps as arrays: cell by cell, or all at once where the cells have the same length and form."""

import re
from dataclasses import dataclass

import numpy as np

from kit.records.stamps import STAMP, stamp

MANY = 200  # fewer cells are read as quickly one by one
ZERO, NINE = ord("0"), ord("9")
DIGITS = re.compile(r"\d+", re.ASCII)


@dataclass(frozen=True, eq=False)
class Stamps:
    """What each cell says, as in `Stamp`: `date` (n x 3, zeros without one), `time_s` (NaN in an empty cell), `half`, `zone`.

    `form` is what all cells share: (order of the date, how many numbers the time has, has a half day, has a zone).
    """

    form: tuple
    date: np.ndarray
    time_s: np.ndarray
    half: np.ndarray
    zone: np.ndarray


def form_of(each):
    """What one `Stamp` must share with the others of its column."""
    return each.order, each.parts, bool(each.half), bool(each.zone)


def gathered(stamps):
    """The `Stamps` of a list in which None stands for an empty cell; all others have one form."""
    first = next(each for each in stamps if each)
    empty = first._replace(time_s=np.nan)
    filled = [each or empty for each in stamps]
    return Stamps(
        form_of(first), np.array([each.date or (0, 0, 0) for each in filled]), np.array([each.time_s for each in filled]),
        np.array([each.half for each in filled]), np.array([each.zone for each in filled]),
    )  # fmt: skip


def all_at_once(cells):
    """The `Stamps` of an array of texts or bytes; None unless the times in all of them are written digit for digit alike."""
    matrix = as_bytes(cells)
    match = None if matrix is None else STAMP.fullmatch(text_of(matrix[0]))
    if not match or not match["time"]:
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
    matrix = np.ascontiguousarray(cells).view(np.uint8).reshape(len(cells), -1)[:, : len(cells[0])]
    return matrix if len(cells[0]) and matrix.all() and matrix.max() < 128 and (np.char.str_len(cells) == len(cells[0])).all() else None


def text_of(row):
    return row.tobytes().decode("ascii")


def times_of(matrix, written):
    """Seconds from times written like `written` ('10:00:02.5'); None if one is not, or has too many minutes or seconds."""
    digit = np.array([sign.isdigit() for sign in written])
    digits = matrix[:, digit]
    if ":" not in written or not (matrix[:, ~digit] == matrix[0, ~digit]).all() or digits.min() < ZERO or digits.max() > NINE:
        return None
    numbers = [matrix[:, slice(*run.span())].astype(float) - ZERO for run in DIGITS.finditer(written)]
    numbers = [digits @ 10.0 ** np.arange(digits.shape[1] - 1, -1, -1) for digits in numbers]
    fraction = numbers.pop() / 10 ** len(DIGITS.findall(written)[-1]) if re.search("[.,]", written) else 0
    if numbers[1].max() > 59 or numbers[-1].max() > 60:
        return None
    weights = (3600, 60, 1)[: len(numbers)]
    return sum(weight * number for weight, number in zip(weights, numbers)) + weights[-1] * fraction


def with_dates(matrix, around, time_s, span):
    """The `Stamps` with date, half and zone from what stands around the times, read once for each stretch where that stays the same."""
    starts = np.flatnonzero(np.r_[True, (around[1:] != around[:-1]).any(axis=1)])
    if len(starts) > max(20, len(matrix) // 10):
        return None
    texts = [text_of(matrix[start]) for start in starts]
    stamps = [stamp(text) for text in texts]
    if None in stamps or len(set(map(form_of, stamps))) > 1 or any(STAMP.fullmatch(text).span("time") != span for text in texts):
        return None
    held, lengths = gathered(stamps), np.diff(np.r_[starts, len(matrix)])
    return Stamps(held.form, np.repeat(held.date, lengths, axis=0), time_s, np.repeat(held.half, lengths), np.repeat(held.zone, lengths))
