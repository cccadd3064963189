"""Lines that name each of their values, 'T1: 21.4 C, T2: 22.0 C' or '{"T1": 21.4}', brought to a table: one thought, a name before each value."""

import json
import re
from collections import Counter
from dataclasses import replace

from kit.faults import IntakeFault
from kit.intake.forms import looks_like_time, tidied
from kit.intake.given import CLOCK_IN_BRACKETS

LEAST_SHARE = 0.6  # of the lines that must name the same values
LABEL = r"(?<![\w.])[A-Za-zÀ-ÿ][\w°() .-]{0,30}?"
PAIR = re.compile(rf"({LABEL}) ?[:=] ?([+-]?\d[\d.,:TZ/-]*(?:(?<=\d) (?=\d\d?:)[\d:.]+)?)( ?[°*^]?[A-Za-z%]{{0,4}}(?![\w:=]))?")
WHOLE = "This is JSON in one piece, not a line for each reading.", "Export the run as CSV, or as JSON with one reading in each line."


def as_table(text):
    """The `Text` with tabs between the values, line by line, and the names as its `headers`; as it is if the lines don't name the same."""
    lines = text.utf8.decode("utf-8", "replace").splitlines()
    named = [named_values(text.file, number, line) for number, line in enumerate(lines, 1)]
    shapes = Counter(tuple(values) for values in named if values)
    if not shapes:
        return text
    names, count = shapes.most_common(1)[0]
    known = sum(set(names) <= set(values) for values in named if values)
    if len(names) < 2 or count < 2 or known < LEAST_SHARE * sum(bool(line.strip()) for line in lines):
        return text
    every = list(dict.fromkeys(name for values in named if values for name in values))
    rows = ["\t".join(values.get(name, "") for name in every) if values else "" for values in named]
    remark = f"Each line names its values: read {', '.join(every[:6])}{' and others' if len(every) > 6 else ''} as columns."
    return replace(text, utf8="\n".join([*rows, ""]).encode(), remarks=(*text.remarks, remark), headers=tuple(every))


def named_values(file, number, line):
    """{name: value as text} of one line, what stands before the first name as 'time' if it is one; {} if it names nothing."""
    line = line.strip().rstrip(",")
    if line[:1] == "{" or line[:1] == "[" and not CLOCK_IN_BRACKETS.match(line.encode()):
        return of_json(file, number, line)
    pairs = list(PAIR.finditer(line))
    values = {tidied(pair[1].rpartition(" - ")[2]): f"{pair[2].rstrip(',')}{pair[3] or ''}".strip() for pair in pairs}
    before = time_before(line[: pairs[0].start() + pairs[0][0].find(pairs[0][1].rpartition(" - ")[2])]) if pairs else ""
    return {"time": before, **values} if before and "time" not in values else values


def time_before(text):
    """The time that a line begins with, before whatever else stands before its first name: '2026-03-01 10:00:02,120 - INFO - '; or ''."""
    words = re.sub(r"[->|,;\s]+$", "", text).split(" ")
    starts = (tidied(" ".join(words[:end]).rstrip("->|,;: ")) for end in range(len(words), 0, -1))
    return next((start for start in starts if looks_like_time(start)), "")


def of_json(file, number, line):
    """The values of one JSON object (RFC 8259), those of objects inside it under both names."""
    try:
        held = json.loads(line)
    except ValueError:
        if number == 1 and line in ("{", "[") or line.startswith("[") and number == 1:
            raise IntakeFault(*WHOLE, file=file, line=1) from None
        return {}
    if isinstance(held, list):
        raise IntakeFault(*WHOLE, file=file, line=number)
    return flattened(held)


def flattened(held, before=""):
    values = {}
    for name, value in held.items():
        if isinstance(value, dict):
            values |= flattened(value, f"{before}{name} ")
        elif not isinstance(value, list):
            values[f"{before}{name}"] = "" if value is None else " ".join(str(value).split())
    return values
