"""Make an environment anew. What stood in its place is moved aside first and deleted then, and only if the kit made it."""

import os
import shutil
import sys
from importlib.util import find_spec
from pathlib import Path

from kit.bootstrap.environment.note import mark
from kit.bootstrap.environment.working import at_work

NO_VENV = (
    "This Python lacks its module {}. On Debian and Ubuntu type: sudo apt install python3-venv. "
    "Elsewhere get Python from www.python.org. Then type the same command again."
)
NO_ROOM = "The kit needs {:.1f} GB on the disk and {:.1f} GB are free. Make room, then type the same command again."
FROM_INSIDE = "The environment must be made anew, which its own Python can't do. Type: python3 -m kit lab"
IN_USE = "The folder {} is in use. Close every window that runs the kit, then type the same command again."
CUT_OFF = "Something ended the program that makes the environment. Type the same command again."


def make(environment, needed_gb):
    """A new environment with pip in it, marked as the kit's. What it will hold needs `needed_gb` on the disk."""
    refuse_the_impossible(environment)
    if os.path.lexists(environment):
        print("  The one that is here was left half done or is from another computer: making it anew.", flush=True)
        move_aside(environment)
        clear_away(environment)
    refuse_a_full_disk(environment.parent, needed_gb)
    environment.mkdir()
    mark(environment)
    print("  making the environment", flush=True)
    with at_work(environment, "venv", str(environment)) as making:
        said = making.stdout.read().strip()
    if making.returncode:
        raise SystemExit(f"Python could not make an environment. It says: {said[-400:]}" if said else CUT_OFF)


def refuse_the_impossible(environment):
    lacking = next((name for name in ("venv", "ensurepip") if find_spec(name) is None), None)
    if lacking:
        raise SystemExit(NO_VENV.format(lacking))
    if Path(sys.prefix).resolve() == environment.resolve():
        raise SystemExit(FROM_INSIDE)


def refuse_a_full_disk(folder, needed_gb):
    free_gb = shutil.disk_usage(folder).free / 1e9
    if free_gb < needed_gb:
        raise SystemExit(NO_ROOM.format(needed_gb, free_gb))


def move_aside(environment):
    """Free its name in one step, so that nothing half deleted can ever be taken for an environment."""
    number = next(number for number in range(1, 1000) if not os.path.lexists(aside(environment, number)))
    try:
        environment.rename(aside(environment, number))
    except PermissionError:
        raise SystemExit(IN_USE.format(environment)) from None


def aside(environment, number):
    return environment.with_name(f"{environment.name}.old-{number}")


def clear_away(environment):
    """Delete what was moved aside, also by a start that was cut off. What is in use stays until the next time."""
    for old in environment.parent.glob(f"{environment.name}.old-*"):
        if old.is_symlink():
            old.unlink()
        else:
            shutil.rmtree(old, ignore_errors=True)
