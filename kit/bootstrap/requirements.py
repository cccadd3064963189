"""The packages of each group, read from where they are stated; and the lock files with the exact versions that were tested together."""

import hashlib
import tomllib
from pathlib import Path

from kit.bootstrap.places import CHECKOUT

LOCKS = Path(__file__).parent
# What each group holds: "lab" is what a learner needs, "serve" that and what a class's server needs, "test" all of it and the tests' packages.
GROUPS = {"lab": ("lab",), "serve": ("lab", "serve"), "test": ("lab", "serve", "test")}


def requirements(group, checkout=CHECKOUT):
    """What pip is asked for, for all parts of the group."""
    return [line for part in GROUPS[group] for line in stated(part, checkout)]


def stated(part, checkout=CHECKOUT):
    """The packages of one part alone: of "lab" in requirements.txt, of the others in pyproject.toml."""
    if part != "lab":
        project = tomllib.loads((checkout / "pyproject.toml").read_text(encoding="utf-8"))
        return project["project"]["optional-dependencies"].get(part, [])
    lines = (line.strip() for line in (checkout / "requirements.txt").read_text(encoding="utf-8").splitlines())
    return [line for line in lines if line and not line.startswith("#")]


def lock_files(group, checkout=CHECKOUT, locks=LOCKS):
    """The files for pip that lock all of `group`. None if one is missing or was made from other requirements than those of today."""
    files = {part: locks / f"lock-{part}.txt" for part in GROUPS[group]}
    return list(files.values()) if all(fits(file, each, checkout) for each, file in files.items()) else []


def fits(lock, group, checkout):
    return lock.exists() and made_from(group, checkout) in lock.read_text(encoding="utf-8").splitlines()[:5]


def made_from(group, checkout=CHECKOUT):
    """The line of a lock file that ties it to the group's requirements."""
    return f"# Made from the requirements {digest(requirements(group, checkout))}"


def fingerprint(group, checkout=CHECKOUT, locks=LOCKS):
    """Changes when a requirement of the group or a locked version does."""
    locked = [path.read_text(encoding="utf-8") for path in lock_files(group, checkout, locks)]
    return digest([*requirements(group, checkout), *locked])


def digest(lines):
    return hashlib.sha256("\n".join(lines).encode()).hexdigest()
