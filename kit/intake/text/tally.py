"""Counting kinds of things in a file with the first few as examples, so that a million of them take no memory."""

from typing import NamedTuple

SHOWN = 3


class Tally(NamedTuple):
    """How many there were, and the first few as (line, text)."""

    count: int
    examples: tuple


def add(tallies, kind, line, text):
    """Count one more of `kind` in the dict `tallies`."""
    count, examples = tallies.get(kind, (0, ()))
    tallies[kind] = Tally(count + 1, (*examples, (line, text)) if count < SHOWN else examples)


def merged(many):
    """One dict of tallies from several, in their order."""
    whole = {}
    for tallies in many:
        for kind, (count, examples) in tallies.items():
            before = whole.get(kind, Tally(0, ()))
            whole[kind] = Tally(before.count + count, (before.examples + examples)[:SHOWN])
    return whole


def examples_of(tally):
    """ "line 8 '# lamp', line 9 '# gas' and others": the first few, quoted."""
    shown = ", ".join(f"line {line} '{text[:40]}'" if text else f"line {line}" for line, text in tally.examples)
    return f"{shown} and others" if tally.count > SHOWN else shown
