"""The kit's own Python environment: made once, made anew where it was left half done, untouched where it stands.

A note inside says what it holds. In an environment that the kit makes, the note says "ours" from the first moment and what it holds
at the last: so a half-made one is known by its note, and one that somebody else made is never thrown away.
"""

import json
import os
import shutil
import subprocess
import sys
import time
from importlib.util import find_spec
from pathlib import Path
from typing import NamedTuple

from kit.bootstrap.installing import install
from kit.bootstrap.locking import alone
from kit.bootstrap.places import CHECKOUT, ENVIRONMENT, python_of
from kit.bootstrap.requirements import fingerprint, requirements

NOTE, LOCK = "kit-note.json", ".venv.lock"
USUAL = {"lab": "1 to 3 minutes", "test": "2 to 5 minutes"}
ROOM_GB = 1.5
ASK = "import sys, sysconfig as s; print('%d.%d' % sys.version_info[:2], s.get_platform(), s.get_path('purelib'), sep='\\n')"
NO_VENV = (
    "This Python lacks its module {}. On Debian and Ubuntu type: sudo apt install python3-venv. "
    "Elsewhere get Python from www.python.org. Then type the same command again."
)
NO_ROOM = "The kit needs {} GB on the disk and {:.1f} GB are free. Make room, then type the same command again."
STRANGE = "The folder {} was not made by the kit and can't be used here. Give it another name, then type the same command again."
FROM_INSIDE = "The environment must be made anew, which its own Python can't do. Type: python3 -m kit lab"


def ready(group, environment=ENVIRONMENT):
    """The Python of an environment that holds all of `group` ("lab" or "test"): at once if it stands, else after setting it up."""
    if not stands(group, environment):
        with alone(environment.parent / LOCK):
            if not stands(group, environment):
                set_up(group, environment)
    return python_of(environment)


def stands(group, environment):
    note = read_note(environment)
    return note.get("holds", {}).get(group) == fingerprint(group) and note["made_for"] == Answer.of(environment).made_for


def set_up(group, environment):
    began = time.monotonic()
    print(f"Setting the kit up in {environment}. This takes {USUAL[group]}, and only the first time.", flush=True)
    if must_be_made(environment):
        make(environment)
    note, answer = read_note(environment), Answer.of(environment)
    doubtful = {"ours": note.get("ours", False)}
    install(python_of(environment), answer.packages, requirements(group), lambda: write_note(environment, doubtful))
    add_the_kit(answer.packages)
    holds = note.get("holds", {}) | {each: fingerprint(each) for each in ("lab", group)}
    write_note(environment, {**doubtful, "made_for": answer.made_for, "holds": holds})
    print(f"Set up in {time.monotonic() - began:.0f} s.", flush=True)


def must_be_made(environment):
    """Is there none, or one of ours that was left half done or can't start here? A strange one that can't be used is a sentence."""
    note, answer = read_note(environment), Answer.of(environment)
    if note.get("ours"):
        return "holds" not in note or note["made_for"] != answer.made_for
    if environment.exists() and not answer.can_hold_the_kit():
        raise SystemExit(STRANGE.format(environment))
    return not environment.exists()


def make(environment):
    refuse_the_impossible(environment)
    if environment.exists():
        print("  The one that is here was left half done or is from another computer: making it anew.", flush=True)
        shutil.rmtree(environment)
    environment.mkdir()
    write_note(environment, {"ours": True})
    print("  making the environment", flush=True)
    made = subprocess.run([sys.executable, "-m", "venv", str(environment)], capture_output=True, encoding="utf-8", errors="replace")
    if made.returncode:
        raise SystemExit(f"Python could not make an environment. It says: {(made.stdout + made.stderr).strip()[-400:]}")


def refuse_the_impossible(environment):
    lacking = next((name for name in ("venv", "ensurepip") if find_spec(name) is None), None)
    if lacking:
        raise SystemExit(NO_VENV.format(lacking))
    free_gb = shutil.disk_usage(environment.parent).free / 1e9
    if free_gb < ROOM_GB:
        raise SystemExit(NO_ROOM.format(ROOM_GB, free_gb))
    if Path(sys.prefix).resolve() == environment.resolve():
        raise SystemExit(FROM_INSIDE)


class Answer(NamedTuple):
    """What an environment's Python says of itself: version and kind of computer, and its folder for packages. Nothing if it can't start."""

    made_for: str | None
    packages: Path | None

    @classmethod
    def of(cls, environment):
        command = [str(python_of(environment)), "-I", "-X", "utf8", "-c", ASK]
        try:
            said = subprocess.run(command, capture_output=True, check=True, encoding="utf-8", timeout=60).stdout.splitlines()
        except (OSError, subprocess.SubprocessError):
            return cls(None, None)
        return cls(f"{said[0]} {said[1]}", Path(said[2]))

    def can_hold_the_kit(self):
        return self.made_for is not None and tuple(map(int, self.made_for.split()[0].split("."))) >= (3, 11)


def add_the_kit(packages):
    """Let the environment's Python find the kit: a line that leads from its packages back here. Relative, so the folder may be moved."""
    (packages / "twin-vessels.pth").write_text(os.path.relpath(CHECKOUT, packages) + "\n", encoding="ascii")


def read_note(environment):
    try:
        return json.loads((environment / NOTE).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}


def write_note(environment, note):
    half = environment / f"{NOTE}.part"
    half.write_text(json.dumps(note), encoding="utf-8")
    os.replace(half, environment / NOTE)
