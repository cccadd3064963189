"""Sheets of the concept check sorted into pairs, one learner each; what can't be counted is said, sheet by sheet."""

from collections import Counter
from dataclasses import dataclass

from kit.coursework import AFTER, BEFORE, LEFT_OUT
from kit.words import counted

BLANKS = f"{LEFT_OUT}-_?"
WHENS = (BEFORE, AFTER)
LETTERS = "abcdefgh"


@dataclass(frozen=True)
class Pairs:
    """`both`: {code: (letters before, letters after)}, '.' for none; `only`: {'before': codes with no other sheet, 'after': …}; `doubts`:
    sentences on what was not counted as it stands."""

    both: dict
    only: dict
    doubts: tuple

    @classmethod
    def of(cls, sheets, choices):
        """From the sheets as typed; `choices`: how many each question has."""
        doubts, found = [], {when: {} for when in WHENS}
        twice = Counter((each.when, key_of(each.code)) for each in sheets)
        for sheet in sheets:
            problem = _problem(sheet, twice, len(choices))
            if problem:
                doubts.append(f"{_named(sheet)} {problem}")
            else:
                letters, strange = _letters(sheet, choices)
                doubts += strange
                found[sheet.when][key_of(sheet.code)] = letters
        before, after = (found[when] for when in WHENS)
        both = {code: (before[code], after[code]) for code in before if code in after}
        only = {when: tuple(code for code in found[when] if code not in both) for when in WHENS}
        return cls(both, only, tuple(dict.fromkeys(doubts)))


def key_of(code):
    """What two sheets of one learner have in common: capital letters and spaces don't count."""
    return "".join(code.split()).casefold()


def _named(sheet):
    return f"{sheet.when[:12].capitalize() or 'Without before or after'}, code {sheet.code.strip()[:20] or 'missing'}:"


def _problem(sheet, twice, items):
    """Why a sheet can't be counted at all; '' where it can."""
    if sheet.when not in WHENS:
        return "the first column must say before or after. This sheet is not counted."
    if not key_of(sheet.code):
        return "a sheet without a code can't be paired. It is not counted."
    if twice[sheet.when, key_of(sheet.code)] > 1:
        return "this code stands on two sheets or more of this pile, so nobody knows which is whose. None of them is counted."
    given = _bare(sheet)
    if not given.strip(BLANKS):
        return "no answer is typed. This sheet is not counted."
    wrong = f"it has {counted(len(given), 'letter')} in place of {items}. Type a point for a question left out. This sheet is not counted yet."
    return "" if len(given) == items else wrong


def _bare(sheet):
    return "".join(sheet.letters.split()).lower()


def _letters(sheet, choices):
    """(the letters, '.' for each that is left out or is none of the choices, sentences on the latter)."""
    given, kept, strange = _bare(sheet), [], []
    for number, (letter, count) in enumerate(zip(given, choices), start=1):
        known = letter in LETTERS[:count]
        kept.append(letter if known else LEFT_OUT)
        if not known and letter not in BLANKS:
            last = LETTERS[count - 1]
            strange.append(f"{_named(sheet)} question {number}: {letter!r} is none of a to {last}. It counts as left out.")
    return "".join(kept), strange
