"""Lines that name each of their values, 'T1: 21.4 C, T2: 22.0 C' or '{"T1": 21.4}', brought to a table: one thought, a name before each value."""

import re
from collections import Counter
from dataclasses import replace

from kit.intake.forms import looks_like_time, tidied
from kit.intake.given import CLOCK_IN_BRACKETS
from kit.intake.text.objects import in_one_piece, of_json, readings_of

LEAST_SHARE = 0.6  # of the lines that must name the same values, or those of a few shapes that come again and again
MOST_SHAPES = 8
MOST_WORDS = 8  # of a time at the beginning of a line
LABEL = r"(?<![\w.])[A-Za-zÀ-ÿ][\w°() .-]{0,30}?"
PAIR = re.compile(rf"({LABEL}) ?[:=] ?([+-]?\d[\d.,:TZ/-]*(?:(?<=\d) (?=\d\d?:)[\d:.]+)?(?:[+-]\d\d:\d\d)?)( ?[°*^]?[A-Za-z%]{{0,4}}(?![\w:=]))?")
COUNT = re.compile(r"\[?(\d{1,13}(?:[.,]\d{1,9})?)\]?[\s,;|>-]+(?=[^\W\d])")  # a number alone before the first name: a time without a name
AND = re.compile(r"(?:and|und|et|y|e) (?=\w)", re.IGNORECASE)


def as_table(text):
    """The `Text` with tabs between the values, line by line, and the names as its `headers`; as it is if the lines don't name the same."""
    if in_one_piece(text):
        named, remarks = readings_of(text)
        return table_of(text, *in_their_lines(named), remarks)
    lines = text.utf8.decode("utf-8", "replace").splitlines()
    named = [named_values(line) for line in lines]
    shapes = Counter(tuple(values) for values in named if len(values) > 1)
    often = [set(names) for names, count in shapes.most_common(MOST_SHAPES) if count > 1]
    known = sum(any(names <= set(values) for names in often) for values in named)
    if known < LEAST_SHARE * sum(bool(line.strip()) for line in lines) or not often:
        return text
    return table_of(text, named, "Each line names its values", ())


def table_of(text, named, how, remarks):
    every = list(dict.fromkeys(name for values in named for name in values))
    rows = ["\t".join(values.get(name, "") for name in every) for values in named]
    remark = f"{how}: read {', '.join(every[:6])}{' and others' if len(every) > 6 else ''} as columns."
    return replace(text, utf8="\n".join([*rows, ""]).encode(), remarks=(*text.remarks, remark, *remarks), headers=tuple(every))


def in_their_lines(named):
    """(the values of each line, words on it) for (line, values) pairs: each in its own line, with empty ones between; where several share a line,
    one after the other."""
    lines = [line for line, _ in named]
    if len(set(lines)) < len(lines):
        return [values for _, values in named], "JSON with several readings in a line, counted as line 1, 2 and so on"
    return [*map(dict(named).get, range(1, lines[-1] + 1), ({} for _ in range(lines[-1])))], "JSON with an object for each reading"


def named_values(line):
    """{name: value as text} of one line, what stands before the first name as 'time' if it is one; {} if it names nothing."""
    line = line.strip().rstrip(",")
    if line[:1] == "{" or line[:1] == "[" and not CLOCK_IN_BRACKETS.match(line.encode()):
        return of_json(line)
    time, rest = time_before(line)
    count = None if time else COUNT.match(line)
    pairs = PAIR.finditer(line[count.end() :] if count else rest)
    values = {tidied(AND.sub("", pair[1].rpartition(" - ")[2], 1)): f"{pair[2].rstrip(',')}{pair[3] or ''}".strip() for pair in pairs}
    before = {"time": time} if time and "time" not in values else {"column 1": count[1]} if count else {}
    return {**before, **values} if values else {}


def time_before(line):
    """(the time that a line begins with, the rest of the line): of '2026-03-01 10:00:02,120 - INFO - T1: 21.4'; ('', the line) without one."""
    words = line.split(" ")
    for end in range(min(len(words), MOST_WORDS), 0, -1):
        start = " ".join(words[:end])
        time = tidied(start.rstrip("->|,;: "))
        if looks_like_time(time):
            return time, line[len(start) :]
    return "", line
