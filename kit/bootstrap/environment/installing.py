"""pip at work, told as it happens. The versions that were tested together, each file checked by its hash; the newest where they don't fit."""

import re
import shutil
import time
from contextlib import contextmanager

from kit.bootstrap.environment.meanings import does_not_fit, meaning
from kit.bootstrap.places import python_of
from kit.bootstrap.requirements import lock_files, requirements
from kit.bootstrap.environment.working import at_work

QUIET = ("--no-input", "--disable-pip-version-check", "--progress-bar", "off", "--retries", "2")
# For whoever set another place as pip's usual one: only the environment's own will do.
INSIDE = ("--target=", "--prefix={}")
LOCKED = ("--require-hashes", "--only-binary", ":all:")
OTHERS = "  The versions that were tested together are not all made for this computer. Taking the newest ones that are."
BEGINS = "Installing collected packages:"


def install(environment, group, packages, before_the_first_change):
    """Let pip bring all of `group` into `packages`, the folder where the environment keeps them."""
    locked = [word for path in lock_files(group) for word in ("--requirement", str(path))]
    if locked:
        said = let_pip(environment, [*LOCKED, *locked], packages, before_the_first_change)
        if said is None:
            return
        if not does_not_fit(said):
            raise SystemExit(meaning(said))
        print(OTHERS, flush=True)
    said = let_pip(environment, ["--prefer-binary", *requirements(group)], packages, before_the_first_change)
    if said is not None:
        raise SystemExit(meaning(said))


def let_pip(environment, wanted, packages, before_the_first_change):
    """One run of pip; what it said if it failed. Its passing files go with it, or with the environment."""
    words = [*QUIET, *(word.format(environment) for word in INSIDE), *wanted]
    with (
        passing_files(environment) as scratch,
        at_work(environment, "pip", "install", *words, python=python_of(environment), scratch=scratch) as pip,
    ):
        said = tell_fetching(pip.stdout)
        if said and said[-1].startswith(BEGINS):
            before_the_first_change()
            tell_installing(pip, packages, total=said[-1].count(",") + 1)
        said += pip.stdout.read().splitlines()
    return said if pip.returncode else None


@contextmanager
def passing_files(environment):
    """An empty folder in the environment. What a killed run left there goes first."""
    folder = environment / "passing"
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(exist_ok=True)
    yield folder
    shutil.rmtree(folder, ignore_errors=True)


def tell_fetching(lines):
    """Say each package as pip comes to it, until it has them all. Gives the lines read."""
    said, names = [], set()
    for line in lines:
        said.append(line.strip())
        if said[-1].startswith(BEGINS):
            break
        name = name_in(said[-1])
        if name and name not in names:
            names.add(name)
            print(f"  fetching {len(names)}: {name}", flush=True)
    return said


def name_in(line):
    """The package that a line of pip's begins with; one that lies on this computer already is named by its file."""
    found = re.match(r"Collecting ([\w.-]+)|Processing (?:.*[/\\])?([\w.]+)-", line)
    return found and (found[1] or found[2])


def tell_installing(pip, packages, total):
    """Say how many are in place, once a second, for pip itself is silent until the end."""
    before, told = installed(packages), 0
    while pip.poll() is None:
        time.sleep(1)
        now = min(installed(packages) - before, total)
        if now > told:
            told = now
            print(f"  installed {now} of {total}", flush=True)


def installed(packages):
    return sum(1 for _ in packages.glob("*.dist-info"))
