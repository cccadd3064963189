"""A single letter in headers that are alike but for it: 'Temp (C)' and 'Temp (F)' have units, 'Temp (C)' and 'Temp (D)' names."""

import re

from kit.intake.forms.numbers import name_and_unit
from kit.words import listed

ALONE = re.compile(r"(?<![^\W_])(?<![°º˚])(?<!deg[ _.])[A-Za-z](?![^\W_])|(?<=[Tt]emp)[A-Z]$")
# Letters that are units of one kind where they stand behind the same words: of a thermometer and its voltage, of electricity, of time.
TOGETHER = tuple(map(set, ("cfkv", "avwj", "dhms")))
HELD = "\x00"  # stands for a letter that names, while the unit is looked for


def names_and_units(headers):
    """((name, unit) of each header, as `name_and_unit` finds them but for letters that name; a sentence if such a letter could be a unit)."""
    alike = {}
    for header in headers:
        for place in letters_in(header):
            alike.setdefault(held(header, place), set()).add(header[place].lower())
    naming = {form for form, letters in alike.items() if len(letters) > 1 and not any(letters <= units for units in TOGETHER)}
    found = [without_letters(header, [place for place in letters_in(header) if held(header, place) in naming]) for header in headers]
    mistaken = [repr(header) for header, (_, unit) in zip(headers, found) if name_and_unit(header)[1] != unit]
    return found, (f"Letters that tell headers apart are names, not units: {listed(mistaken)}.",) if mistaken else ()


def letters_in(header):
    return [match.start() for match in ALONE.finditer(header)]


def held(header, place):
    return header[:place] + HELD + header[place + 1 :]


def without_letters(header, places):
    """(name, unit) of a header in which the letters at `places` are no unit."""
    bare = header
    for place in places:
        bare = held(bare, place)
    name, unit = name_and_unit(bare)
    for place in places:
        name = name.replace(HELD, header[place], 1)
    return name, unit
