"""Lines that a bad cable damaged: told from readings by what the other lines look like, and left out with word of it."""

import re
from bisect import bisect_left
from collections import Counter
from dataclasses import replace

import numpy as np

from kit.faults import IntakeFault
from kit.intake.forms import FAILED, grouped, looks_like_measure, MISSING, stamp, STRICT, tidied
from kit.intake.given import Text
from kit.intake.text import sniff
from kit.intake.time import moment

ENOUGH = 3  # good lines, before the others are judged by them
COMMON = 0.05  # of all lines that have one shape, for it to be that of a good line
RISING = 0.8  # of the steps from line to line that lead forward in a column of times
ASTRAY = 2  # lines in a row whose times lie elsewhere; more are no damage but a clock that was set
CONTROLS = bytes(set(range(32)) - {9, 10, 13} | {127})
WIDE = (b"\xff\xfe", b"\xfe\xff")  # marks of UTF-16, in which every second byte may be zero
LETTERS = re.compile(r"[^\W\d_]+")
DECIMALS = re.compile(r"0[.,]0")
NUMBER, SIGN = re.compile(r"\d+"), re.compile(r"(?<![\w.])[+-](?=\d)")


def without_damaged(data):
    """(the data without damaged lines, how many there were, the first of them)."""
    if data[:2] in WIDE or data[1:2] == b"\0" or data[:1] == b"\0" and data[2:3] == b"\0":
        return data, 0, ""
    lines = data.split(b"\n")
    sound = well_shaped(lines)
    sound = in_time(lines, sound)
    if len(sound) == len(lines):
        return data, 0, ""
    kept = set(sound)
    first = next(line for place, line in enumerate(lines) if place not in kept)
    return b"\n".join(lines[place] for place in sound), len(lines) - len(sound), first.decode("ascii", "replace")[:30]


def well_shaped(lines):
    """Places of the lines that look like many others, that the table takes as they are, or that are meant for people."""
    plain = [line for line in lines if line.translate(None, CONTROLS) == line]
    shapes = list(map(shape_of, lines))
    counts = Counter(shape for shape in shapes if "0" in shape)
    if len(plain) < ENOUGH or not counts:
        return [place for place, line in enumerate(lines) if line.translate(None, CONTROLS) == line]
    least = max(ENOUGH, COMMON * sum(counts.values())) if max(counts.values()) >= ENOUGH else 1
    begun = next((place for place, shape in enumerate(shapes) if counts[shape] >= least), 0)
    common = [counts[shape] >= least for shape in shapes]
    usual = max(counts, key=counts.get)
    above = [place < begun and not like_a_reading(line, shapes[place], usual) for place, line in enumerate(lines)]
    layout = layout_of([line for place, line in enumerate(lines) if above[place] or common[place]])
    return [
        place
        for place, line in enumerate(lines)
        if line.translate(None, CONTROLS) == line and (above[place] or fits(line, layout) or common[place] and not parted(layout))
    ]


def like_a_reading(line, shape, usual):
    """Is this rather a damaged line of readings than a header: most of its signs are digits, it has the same words, or as many numbers, one with
    decimals?"""
    digits = 2 * sum(48 <= sign <= 57 for sign in line) > len(line.strip())
    same_words = LETTERS.findall(line.decode("ascii", "ignore")) == LETTERS.findall(usual) != []
    return digits or same_words or DECIMALS.search(shape) is not None and shape.count("0") == usual.count("0")


def parted(layout):
    """Can a line be judged cell by cell?"""
    return layout is not None and layout.delimiter in ",;\t" and len(layout.kinds) - layout.kinds.count("x") >= 2


def shape_of(line):
    """A line with one 0 for each number in it, whatever its sign: '2026-10-05,-1.5' is '0-0-0,0.0'. What is no text has none of its own."""
    try:
        return NUMBER.sub("0", SIGN.sub("", line.decode("utf-8").rstrip("\r")))
    except UnicodeDecodeError:
        return ""


def layout_of(lines):
    """The `Layout` that most lines have, with the decimal mark of most numbers; None where there is none, or where cells may hold more than one
    line."""
    text = b"\n".join(lines)
    if b'"' in text:
        return None
    try:
        layout = sniff(Text("", text), ".")
    except IntakeFault:
        return None
    rows = (line.decode("utf-8", "replace").split(layout.delimiter) for line in lines)
    numbers = "".join(cell for row in rows for cell, kind in zip(row, layout.kinds) if kind == "n")
    return replace(layout, decimal="," if numbers.count(",") > numbers.count(".") else ".")


def fits(line, layout):
    """Is this a line of numbers, times and marks for missing ones as the table wants them, or one without any number?"""
    text = line.decode("utf-8", "replace")
    if "\ufffd" in text:
        return False
    if not any(sign.isdigit() for sign in text):
        return True
    if not parted(layout):
        return False
    cells = [tidied(cell) for cell in text.split(layout.delimiter)]
    return len(cells) == len(layout.kinds) and all(good_cell(layout, *each) for each in zip(cells, layout.kinds, layout.samples))


def good_cell(layout, cell, kind, samples):
    """Is this cell what its column holds: a number with the file's decimal mark, a time with a zone if the others have one?"""
    if kind in "-x" or cell in MISSING or cell.lower() in FAILED:
        return True
    if kind == "t":
        zones = [bool(found and found.zone) for found in map(stamp, (cell, *samples))]
        return moment(cell) is not None and (not samples or zones[0] == (2 * sum(zones[1:]) > len(samples)))
    return bool(STRICT[layout.decimal].fullmatch(cell)) or grouped(cell, layout.decimal) is not None or united(cell, samples)


def united(cell, samples):
    """Is this a number with a unit behind it, as the column's others are?"""
    return looks_like_measure(cell) and any(map(looks_like_measure, samples))


def in_time(lines, places):
    """The places without those, one or two in a row, whose time does not fit between the others'."""
    layout = layout_of([lines[place] for place in places])
    if layout is None or layout.edges:
        return places
    rows = [[tidied(cell) for cell in re.split(rf"[{layout.delimiter}]", lines[place].decode("utf-8", "replace"))] for place in places]
    for column, kind in enumerate(layout.kinds):
        told = [(at, value) for at, row in enumerate(rows) if column < len(row) and (value := moment(row[column])) is not None]
        values = np.array([value for _, value in told])
        if kind in "nt" and len(values) > ENOUGH and (np.diff(values) > 0).mean() >= RISING:
            astray = [told[place][0] for place in out_of_order(values)]
            alone = not any({at - back for back in range(ASTRAY + 1)} <= set(astray) for at in astray)
            ended = astray and astray[-1] >= len(places) - ASTRAY  # whether the clock was set there the next lines will tell
            return [place for at, place in enumerate(places) if at not in set(astray)] if alone and not ended else places
    return places


def out_of_order(values):
    """Which values are left once the longest rising row is picked out of them (patience sorting)."""
    ends, tops, before = [], [], []
    for place, value in enumerate(values):
        pile = bisect_left(ends, value)
        before.append(tops[pile - 1] if pile else -1)
        ends[pile : pile + 1], tops[pile : pile + 1] = [value], [place]
    rising, place = set(), tops[-1] if tops else -1
    while place >= 0:
        rising.add(place)
        place = before[place]
    return [place for place in range(len(values)) if place not in rising]
