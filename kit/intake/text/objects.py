"""JSON in one piece (RFC 8259), brought to a line for each reading: objects one after the other, in brackets or not, rows in brackets, or one
object with a list of readings or with an array for each quantity."""

import json
import re
from itertools import repeat

from kit.faults import IntakeFault
from kit.intake.given import CLOCK_IN_BRACKETS

LARGEST_BYTES = 32 * 2**20
BETWEEN = re.compile(r"[\s,]*")
OUTER = re.compile(r"\s*\[(?=\s*[\[{])")  # the bracket around a list of objects or of rows
NO_TABLE = "This JSON holds no list of readings.", "Export the run as CSV, or as JSON with an object for each reading."
DAMAGED = "This JSON is damaged here.", "Correct it in a copy of the file, or export the run again."
# Numbers stay as the file writes them: 21.40, not 21.4.
DECODER = json.JSONDecoder(parse_float=str, parse_int=str, parse_constant=str)


def in_one_piece(text):
    """Is the text JSON that has no object of its own in each line?"""
    lines = [line.strip().rstrip(b",") for line in text.first_lines]
    if not lines or lines[0][:1] not in (b"{", b"[") or CLOCK_IN_BRACKETS.match(lines[0]):
        return False
    return lines[0][:1] == b"[" or sum(bool(of_json(line.decode("utf-8", "replace"))) for line in lines) < 2


def of_json(line):
    """The values of one JSON object, {name: value as text}; {} of anything else."""
    try:
        held = DECODER.decode(line)
    except (ValueError, RecursionError):
        return {}
    return flattened(held) if isinstance(held, dict) else {}


def readings_of(text):
    """([(line, {name: value as text})] of JSON in one piece, remarks). A fault for damaged text, or for one without a list of readings."""
    if len(text.utf8) > LARGEST_BYTES:
        what = f"This JSON has {len(text.utf8) / 2**20:,.0f} MiB in one piece; at most {LARGEST_BYTES // 2**20} are read."
        raise IntakeFault(what, "Export the run as CSV, or only the part with the run.", file=text.file, line=1)
    written = text.utf8.decode("utf-8", "replace")
    outer = OUTER.match(written)
    held, cut = walked(text.file, written, outer.end() if outer else 0)
    if len(held) == 1 and isinstance(held[0][1], dict):
        held = inside(text.file, written, held[0][1])
    if len(held) < 2 or len({type(each) for _, each in held}) > 1 or not isinstance(held[0][1], (dict, list)):
        raise IntakeFault(*NO_TABLE, file=text.file, line=1)
    refuse_uneven(text.file, [each for _, each in held])
    named = [(line, flattened(each if isinstance(each, dict) else numbered(each))) for line, each in held]
    return named, ("Left out the last reading, which is cut off.",) if cut else ()


def refuse_uneven(file, held):
    """A fault for a row in brackets with more or fewer values than the others, or with another row inside: which is which can't be told."""
    widths = [len(each) for each in held if isinstance(each, list) and not any(isinstance(value, list) for value in each)]
    usual = max(set(widths), key=widths.count, default=0)
    for number, each in enumerate(held, 1):
        if isinstance(each, list) and (len(each) != usual or any(isinstance(value, list) for value in each)):
            raise IntakeFault(f"Reading {number} in this JSON has {len(each)} values, the others {usual}.", DAMAGED[1], file=file, line=1)


def walked(file, written, place):
    """([(line, value)] of the values one after the other from a place, is the last one cut off?)."""
    found, line, counted = [], 1, 0
    while (place := BETWEEN.match(written, place).end()) < len(written) and written[place] != "]":
        line, counted = line + written.count("\n", counted, place), place
        try:
            value, place = DECODER.raw_decode(written, place)
        except (ValueError, RecursionError):
            if len(found) > 1 and not set("]}") & set(written[place:]):
                return found, True
            raise IntakeFault(*DAMAGED, file=file, line=line) from None
        found.append((line, value))
    return found, False


def inside(file, written, held):
    """[(line, value)] of the readings within one object: those of the one list of objects in it, or of arrays of one length."""
    lists = {name: value for name, value in held.items() if isinstance(value, list) and value}
    objects = [name for name, value in lists.items() if all(isinstance(each, dict) for each in value)]
    if len(objects) == 1:
        return list(zip(lines_in(file, written, objects[0]), lists[objects[0]]))
    plain = {name: value for name, value in lists.items() if not any(isinstance(each, (dict, list)) for each in value)}
    if len(plain) > 1 and len(set(map(len, plain.values()))) == 1:
        return [(line, dict(zip(plain, row))) for line, row in zip(lines_in(file, written, next(iter(plain))), zip(*plain.values()))]
    deeper = [value for value in held.values() if isinstance(value, dict)]
    return inside(file, written, deeper[0]) if len(deeper) == 1 else []


def lines_in(file, written, name):
    """The line of each value in the list of this name."""
    place = re.search(rf"{re.escape(json.dumps(name, ensure_ascii=False))}\s*:\s*\[", written)
    return [line for line, _ in walked(file, written, place.end())[0]] if place else repeat(1)


def numbered(row):
    return {f"column {place}": value for place, value in enumerate(row, 1)}


def flattened(held, before=""):
    """{name: value as text} of an object, of objects inside it under both names; lists in it are left out."""
    values = {}
    for name, value in held.items():
        if isinstance(value, dict):
            values |= flattened(value, f"{before}{name} ")
        elif not isinstance(value, list):
            values[f"{before}{name}"] = "" if value is None else " ".join(str(value).replace('"', "'").split())
    return values
