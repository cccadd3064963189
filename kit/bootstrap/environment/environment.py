"""The kit's own Python environment: made once, made anew where it was left half done, untouched where it stands.

In an environment that the kit makes, a mark says so from the first moment, and a note says at the last what it holds: so a half-made one
is known, and one that somebody else made is never thrown away. Packages go only where the environment's Python says that it is at home.
"""

import os
import subprocess
import time
from pathlib import Path
from typing import NamedTuple

from kit.bootstrap.environment.installing import install
from kit.bootstrap.locking import alone
from kit.bootstrap.environment.making import clear_away, make, refuse_a_full_disk
from kit.bootstrap.environment.meanings import NOT_AT_HOME
from kit.bootstrap.environment.note import is_marked, mark, read_note, write_note
from kit.bootstrap.places import CHECKOUT, ENVIRONMENT, python_of
from kit.bootstrap.requirements import fingerprint, GROUPS
from kit.bootstrap.environment.working import let_end

LOCK = ".venv.lock"
USUAL = {"lab": "1 to 3 minutes", "serve": "1 to 4 minutes", "test": "2 to 5 minutes"}
# Measured in November 2026 on Linux: 706 MB with the learners' packages, 1107 MB with those of the tests, too; and what pip fetches
# lies beside them while it unpacks it, once in its cache and once more.
ROOM_GB, STANDS_GB = {"lab": 1.0, "serve": 1.4, "test": 2.0}, 0.7
ASK = "import sys, sysconfig as s; print('%d.%d' % sys.version_info[:2], s.get_platform(), s.get_path('purelib'), sys.prefix, sep='\\n')"
STRANGE = "The folder {} was not made by the kit and can't be used here. Give it another name, then type the same command again."


def ready(group, environment=ENVIRONMENT):
    """The Python of an environment that holds all of `group` ("lab", "serve" or "test"): at once if it stands, else after setting it up."""
    if not stands(group, environment):
        with alone(environment.parent / LOCK):
            if not stands(group, environment):
                set_up(group, environment)
    return python_of(environment)


def stands(group, environment):
    note = read_note(environment)
    if note.get("holds", {}).get(group) != fingerprint(group):
        return False
    answer = Interpreter.of(environment)
    return answer.made_for is not None and answer.made_for == note.get("made_for")


def set_up(group, environment):
    began = time.monotonic()
    print(f"Setting the kit up in {environment}. This takes {USUAL[group]}, and only the first time.", flush=True)
    let_end(environment)
    clear_away(environment)
    if must_be_made(environment):
        make(environment, ROOM_GB[group])
    else:
        refuse_a_full_disk(environment, ROOM_GB[group] - STANDS_GB)
    if is_marked(environment):
        mark(environment)
    answer, holds = Interpreter.of(environment), read_note(environment).get("holds", {})
    if answer.packages is None:
        raise SystemExit(NOT_AT_HOME)
    install(environment, group, answer.packages, lambda: write_note(environment, {}))
    add_the_kit(answer.packages)
    holds = holds | {each: fingerprint(each) for each in GROUPS[group]}
    write_note(environment, {"made_for": answer.made_for, "holds": holds})
    print(f"Set up in {time.monotonic() - began:.0f} s.", flush=True)


def must_be_made(environment):
    """Is there none, or one of ours that was left half done or can't start here? A strange one that can't be used is a sentence."""
    if not os.path.lexists(environment):
        return True
    note, answer = read_note(environment), Interpreter.of(environment)
    if is_marked(environment):
        return "holds" not in note or answer.made_for is None or answer.made_for != note.get("made_for")
    if not answer.can_hold_the_kit():
        raise SystemExit(STRANGE.format(environment))
    return False


class Interpreter(NamedTuple):
    """What an environment's Python says of itself: version and kind of computer, and its folder for packages.

    Nothing if it can't start, or if it is at home elsewhere: then whatever is installed by it would land there.
    """

    made_for: str | None
    packages: Path | None

    @classmethod
    def of(cls, environment):
        command = [str(python_of(environment)), "-I", "-X", "utf8", "-c", ASK]
        try:
            said = subprocess.run(command, capture_output=True, check=True, encoding="utf-8", timeout=60).stdout.splitlines()
            version, computer, packages, home = said
            at_home = os.path.samefile(home, environment)
        except (OSError, subprocess.SubprocessError, ValueError):
            return cls(None, None)
        return cls(f"{version} {computer}", Path(packages)) if at_home else cls(None, None)

    def can_hold_the_kit(self):
        return self.made_for is not None and tuple(map(int, self.made_for.split()[0].split("."))) >= (3, 11)


def add_the_kit(packages):
    """Let the environment's Python find the kit: a line that leads from its packages back here. Relative, so the folder may be moved."""
    (packages / "twin-vessels.pth").write_text(os.path.relpath(CHECKOUT, packages) + "\n", encoding="ascii")
