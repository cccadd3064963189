"""Tickets: who holds one is let in, under the number that it stands for. Only their SHA-256 is kept, so a copy of the register opens nothing."""

import hashlib
import json
import secrets
from dataclasses import asdict, dataclass, field, replace
from pathlib import Path

from kit.classroom.place import write_private
from kit.faults import Fault

LETTERS = "abcdefghjkmnpqrstuvwxyz23456789"  # nothing that looks like another: 31 of them, so 12 are 59 bits
GROUPS, IN_GROUP, MOST, LONGEST_NAME = 3, 4, 99, 60


@dataclass(frozen=True)
class Register:
    """`numbers` ({SHA-256 of a ticket: number}), `names` ({number: name}, where names were given), and how many numbers were ever `given`."""

    numbers: dict = field(default_factory=dict)
    names: dict = field(default_factory=dict)
    given: int = 0

    def keep(self, place):
        """Write it into the class's folder, for its owner alone."""
        write_private(register_of(place), json.dumps(asdict(self), ensure_ascii=False, indent=1))


def register_of(place):
    return place.state / "tickets.json"


def read_tickets(place):
    """The `Register` of a class, an empty one where none is kept yet."""
    try:
        return Register(**json.loads(register_of(place).read_text(encoding="utf-8")))
    except FileNotFoundError:
        return Register()
    except (ValueError, TypeError) as problem:
        raise Fault(f"{register_of(place)} is damaged. Make new tickets with: python3 -m kit serve new-term. The work stays.") from problem


def new_ticket():
    """Such as 'k7fm-q2xd-9hwa'."""
    return "-".join("".join(secrets.choice(LETTERS) for _ in range(IN_GROUP)) for _ in range(GROUPS))


def digest_of(ticket):
    """What is kept of a ticket, however it was typed. Random letters need no slow hash."""
    return hashlib.sha256("".join(each for each in str(ticket).lower() if each in LETTERS).encode()).hexdigest()


def give_tickets(place, learners, names=()):
    """New tickets for all numbers up to `learners` that have had none yet: ({number: ticket}, the Register that is kept now)."""
    register = read_tickets(place)
    given = {number_for(count): new_ticket() for count in range(register.given + 1, learners + 1)}
    named = register.names | {number_for(count): name for count, name in enumerate(names, start=1)}
    numbers = register.numbers | {digest_of(ticket): number for number, ticket in given.items()}
    register = Register(numbers, named, max(register.given, learners))
    register.keep(place)
    return given, register


def number_for(count):
    return f"{count:02d}"


def number_of(place, word):
    """The number that a ticket or a number stands for. A Fault where it stands for nobody."""
    register = read_tickets(place)
    if word.isdecimal() and 1 <= int(word) <= register.given:
        return number_for(int(word))
    if digest_of(word) not in register.numbers:
        raise Fault(f"{word} is no ticket that is in use, and no learner's number.")
    return register.numbers[digest_of(word)]


def withdraw_ticket(place, number, anew=False):
    """Take back the ticket of a number. With `anew` the number gets a new one, which is given back."""
    register, ticket = read_tickets(place), new_ticket() if anew else None
    numbers = {digest: whose for digest, whose in register.numbers.items() if whose != number}
    replace(register, numbers=numbers | ({digest_of(ticket): number} if anew else {})).keep(place)
    return ticket


def names_in_file(path):
    """The names in a text file, one a line; what could be taken for anything but letters is left out. A Fault where it can't be read."""
    try:
        text = Path(path).read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as problem:
        raise Fault(f"{path} can't be read as a list of names ({problem}). Save it as plain text in UTF-8, one name a line.") from problem
    names = [name for line in text.splitlines() if (name := " ".join("".join(each if each.isprintable() else " " for each in line).split()))]
    if not names:
        raise Fault(f"{path} holds no names. Write one name a line.")
    if len(names) > MOST:
        raise Fault(f"{path} holds {len(names)} names. One class has at most {MOST}.")
    return [name if len(name) <= LONGEST_NAME else f"{name[:LONGEST_NAME]}…" for name in names]
