"""What the teacher sees of a class: who is in, what it takes of the computer, and when something was last kept."""

import time
from dataclasses import dataclass
from pathlib import Path

import psutil

from kit.classroom.hub import members
from kit.classroom.tickets import read_tickets

KEPT = ("marks/*.json", "*-answers.json")


@dataclass(frozen=True)
class Seat:
    """One learner: `number`, `name` ('' where none was given), memory in MB (`None`: not in), minutes since something was kept (`None`: never)."""

    number: str
    name: str
    memory_mb: float | None
    last_min: float | None
    has_ticket: bool = True

    @property
    def is_in(self):
        """Does a server of this learner run?"""
        return self.memory_mb is not None


def seats(place):
    """A `Seat` for each number that ever got a ticket."""
    register, memory = read_tickets(place), memory_by_number(place)
    holders = set(register.numbers.values())
    numbers = [f"{count:02d}" for count in range(1, register.given + 1)]
    return [Seat(each, register.names.get(each, ""), memory.get(each), last_kept(place.home(each)), each in holders) for each in numbers]


def memory_by_number(place):
    """{number: MB} of all processes at work in a learner's folder; what they share is shared out, where the system can tell."""
    found = {}
    for process in members(place):
        try:
            folder = Path(process.cwd())
            if folder.is_relative_to(place.homes) and folder != place.homes:
                number = folder.relative_to(place.homes).parts[0]
                found[number] = found.get(number, 0.0) + memory_of(process)
        except (psutil.Error, OSError):
            continue  # it ended meanwhile
    return found


def memory_of(process):
    told = process.memory_full_info()
    return getattr(told, "pss", told.rss) / 1e6


def last_kept(home):
    """Minutes since the learner's marks or answers were last written."""
    times = [path.lstat().st_mtime for pattern in KEPT for path in home.glob(pattern) if not path.is_symlink()]
    return max(0.0, (time.time() - max(times)) / 60) if times else None


def table_of(found):
    """The seats as lines of text, and their sum."""
    lines = [f"{each.number}  {each.name[:24]:24}  {told(each)}" for each in found]
    inside = [each for each in found if each.is_in]
    return "\n".join([*lines, f"{len(inside)} of {len(found)} are in, with {sum(each.memory_mb for each in inside):,.0f} MB together."])


def told(seat):
    kept = "nothing kept yet" if seat.last_min is None else f"last kept something {seat.last_min:.0f} min ago"
    inside = f"in, {seat.memory_mb:.0f} MB" if seat.is_in else "not in"
    return f"{inside}, {kept}" + ("" if seat.has_ticket else ", ticket withdrawn")
