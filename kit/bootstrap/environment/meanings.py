"""What pip's last words mean, and what a person can do about it."""

import re

AGAIN = "Then type the same command again."
CUT_OFF = (
    "Something ended the program that installs the packages before it was done; a computer short of memory does that. "
    "Close other programs. Then type the same command again: it begins anew and mends what was left half done."
)
UNKNOWN = (
    "The packages could not be installed. Check the network. Then type the same command again. If it stops here again, show these "
    "lines to somebody who knows Python: {}"
)
NOT_AT_HOME = (
    "The environment's Python can't start, or keeps its packages elsewhere; so nothing was installed. Delete the folder .venv, "
    "then type the same command again."
)
# What pip prints, from several of its versions, or the kit in its place (watched.py). The first that fits is said.
MEANINGS = {
    "No space left on device|Errno 28|WinError 112|quota exceeded": f"This disk is full. Make room on it. {AGAIN}",
    "DO NOT MATCH THE HASHES": (
        "A package came cut short or changed, so it was not installed. Type the same command again. If it stops here again, try another "
        "network."
    ),
    "NewConnectionError|ConnectTimeout|NameResolution|ProxyError|SSLError|Network is unreachable": (
        f"The packages could not be fetched: no way to the package index. Check the network (a school's may need its proxy named). {AGAIN}"
    ),
    "ReadTimeout|ProtocolError|IncompleteRead|incomplete-download|Connection\\w*Error|Connection (broken|reset)|Wheel '.* is invalid": (
        f"The network broke off while the packages were fetched. Wait until it is back. {AGAIN}"
    ),
    "Permission denied|Access is denied|WinError (5|32)": (
        f"A file of the kit is in use or not yours. Close every window that runs it. {AGAIN}"
    ),
    "MemoryError": CUT_OFF,
    "^This Python keeps its packages in": NOT_AT_HOME,
    "^An earlier set-up is still at work": f"An earlier set-up is still at work. Wait a minute. {AGAIN}",
}
NO_SUCH_PACKAGE = "No matching distribution|requires a different Python|Failed building wheel|Failed to build"
NOT_MADE = f"A package is not made for this Python on this computer. Get a 64-bit Python 3.11, 3.12 or 3.13 from www.python.org. {AGAIN}"
# With hashes pip refuses what the lock files don't name, such as a package that only this kind of computer needs.
NOT_LOCKED = "all requirements must have their versions pinned|Hashes are required in --require-hashes mode|ResolutionImpossible"


def meaning(said):
    """A sentence for the lines that pip printed before it failed. Where nobody knows, its own complaint after what to try."""
    complaints = [line for line in said if line.lower().startswith("error")]
    return known(said) or (NOT_MADE if found(NO_SUCH_PACKAGE, said) else UNKNOWN.format(" ".join(complaints)[:600]) if complaints else CUT_OFF)


def does_not_fit(said):
    """Did pip fail only because a locked version isn't made for this computer, or the lock lacks what it needs?"""
    return known(said) is None and found(f"{NO_SUCH_PACKAGE}|{NOT_LOCKED}", said)


def known(said):
    return next((what for pattern, what in MEANINGS.items() if found(pattern, said)), None)


def found(pattern, said):
    return re.search(pattern, "\n".join(said), re.MULTILINE) is not None
