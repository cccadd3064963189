"""pip at work, told as it happens; and what its failures mean."""

import re
import subprocess
import time

from kit.bootstrap.handover import surroundings

PIP = ("-m", "pip", "install", "--no-input", "--disable-pip-version-check", "--progress-bar", "off", "--retries", "2")
FOR_PIP = {"PYTHONUTF8": "1", "PIP_USER": "0"}  # "install for the user", where it is set, is refused inside an environment
AGAIN = "Then type the same command again."
# What pip prints, from several of its versions, and what a person can do about it. The first that fits is said.
MEANINGS = {
    "No space left on device|Errno 28|WinError 112|quota exceeded": f"This disk is full. Make room on it. {AGAIN}",
    "NewConnectionError|ConnectTimeout|ReadTimeout|NameResolution|ProxyError|SSLError|Connection\\w*Error|Network is unreachable": (
        f"The packages could not be fetched: no way to the package index. Check the network (a school's may need its proxy named). {AGAIN}"
    ),
    "Permission denied|Access is denied|WinError (5|32)": (
        f"A file of the kit is in use or not yours. Close every window that runs it. {AGAIN}"
    ),
    "No matching distribution|requires a different Python|Failed building wheel": (
        f"A package is not made for this Python on this computer. Get a 64-bit Python 3.11, 3.12 or 3.13 from www.python.org. {AGAIN}"
    ),
}


def install(python, packages, wanted, before_the_first_change):
    """Let pip bring `wanted` into `packages`, the folder where `python` keeps them."""
    told = {"stdout": subprocess.PIPE, "stderr": subprocess.STDOUT, "encoding": "utf-8", "errors": "replace"}
    with subprocess.Popen([str(python), *PIP, *wanted], env=surroundings() | FOR_PIP, **told) as pip:
        said = tell_fetching(pip.stdout)
        if said and said[-1].startswith("Installing collected packages:"):
            before_the_first_change()
            tell_installing(pip, packages, total=said[-1].count(",") + 1)
        said += pip.stdout.read().splitlines()
    if pip.returncode:
        raise SystemExit(meaning(said))


def tell_fetching(lines):
    """Say each package as pip comes to it, until it has them all. Gives the lines read."""
    said, names = [], set()
    for line in lines:
        said.append(line.strip())
        if said[-1].startswith("Installing collected packages:"):
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


def meaning(said):
    """What pip's last words mean to a person. Where nobody knows, the words themselves."""
    text = "\n".join(said)
    known = next((what for pattern, what in MEANINGS.items() if re.search(pattern, text)), None)
    complaints = [line for line in said if line.startswith("ERROR")] or said[-3:]
    return known or f"The packages could not be installed. pip says{': ' if complaints else ' nothing.'}{' '.join(complaints)[:600]}"
