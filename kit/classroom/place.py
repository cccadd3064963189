"""The folder of a class: `homes/NN` holds the work of learner NN, `state` what the hub keeps, `tickets.html` the page to print."""

import json
import os
import secrets
from dataclasses import dataclass
from pathlib import Path

from kit.faults import Fault
from kit.storage import write_atomically

VARIABLE = "TWIN_VESSELS_CLASS"  # names the folder to the hub and to all that it starts, so that they are known by it
STRANGE = (
    "{} holds something else ({}). A class needs a folder of its own: name one that does not exist yet, or leave the name out."
)
NOT_YOURS = "{} belongs to somebody else. Name a folder of your own."
SECRETS = ("cookie_secret", "hub.sqlite", "keys.json", "tickets.json")


@dataclass(frozen=True)
class ClassPlace:
    """Where a class is kept; made by `place_in`."""

    root: Path

    @property
    def homes(self):
        """The learners' folders, one below it for each number."""
        return self.root / "homes"

    @property
    def state(self):
        """What the hub keeps: only the teacher may look in."""
        return self.root / "state"

    @property
    def sheet(self):
        """The page of tickets to print."""
        return self.root / "tickets.html"

    def home(self, number):
        """The folder of the learner with that number, such as '07'."""
        return self.homes / number

    def keys(self):
        """The secrets between hub, proxy and this command; made when first asked for."""
        path = self.state / "keys.json"
        if not path.exists():
            write_private(path, json.dumps({name: secrets.token_hex(32) for name in ("proxy", "teacher")}))
        return json.loads(path.read_text())

    def forget(self):
        """Delete every secret, all tickets and everybody who is signed in. The learners' work stays."""
        for name in SECRETS:
            (self.state / name).unlink(missing_ok=True)
        self.sheet.unlink(missing_ok=True)


def place_in(folder, make=False):
    """The `ClassPlace` in `folder`. A Fault where there is none; with `make` it is made, in a new or empty folder."""
    place = ClassPlace(Path(folder).absolute())
    if not place.state.is_dir():
        if not make:
            raise Fault(f"No class is kept in {place.root}. Start one there with: python3 -m kit serve {folder}")
        refuse_the_strange(place.root)
        place.state.mkdir(parents=True, exist_ok=True)
    if os.name == "posix" and place.state.stat().st_uid != os.getuid():
        raise Fault(NOT_YOURS.format(place.root))
    place.homes.mkdir(exist_ok=True)
    for each in (place.state, place.homes):
        each.chmod(0o700)
    return place


def refuse_the_strange(root):
    inside = sorted(each.name for each in root.iterdir()) if root.is_dir() else []
    if inside:
        raise Fault(STRANGE.format(root, ", ".join(inside[:3])))
    if root.exists() and not root.is_dir():
        raise Fault(f"{root} is a file. Name a folder for the class.")


def write_private(path, text):
    """Write a file that only its owner may read, whole or not at all."""
    write_atomically(path, text)  # made by tempfile, which lets nobody else in
    os.chmod(path, 0o600)


