"""`lock`: the newest versions that fit the requirements, one set for every computer, with the hashes of their files.

uv does the searching, for it looks at all kinds of computers and Pythons at once. It is fetched into a folder that goes again.
What the lock files say is then pip's to follow (`--require-hashes`).
"""

import re
import subprocess
from concurrent.futures import ThreadPoolExecutor
from itertools import product
from pathlib import Path
from tempfile import TemporaryDirectory

from kit.bootstrap.environment import Interpreter, let_pip, make, meaning
from kit.bootstrap.handover import surroundings
from kit.bootstrap.places import python_of
from kit.bootstrap.requirements import GROUPS, LOCKS, made_from, requirements

UV, UV_GB = "uv>=0.13,<1", 0.2
AT_ONCE, PYTHONS = 4, ("3.11", "3.12", "3.13", "3.14")
# uv's name for each kind of computer that the lock holds for, and what Python says of itself there (PEP 508).
COMPUTERS = {
    "x86_64-unknown-linux-gnu": ("linux", "x86_64"),
    "aarch64-unknown-linux-gnu": ("linux", "aarch64"),
    "aarch64-apple-darwin": ("darwin", "arm64"),
    "x86_64-apple-darwin": ("darwin", "x86_64"),
    "x86_64-pc-windows-msvc": ("win32", "AMD64"),
}
# Built files only, so that nothing is compiled on a learner's computer.
COMPILE = ("pip", "compile", "--quiet", "--no-header", "--no-annotate", "--only-binary", ":all:")
# One version for all computers and Pythons where there is one.
FOR_ALL = ("--universal", "--fork-strategy", "fewest", "--generate-hashes", "--python-version", PYTHONS[0])
HEAD = "# Made by `python3 -m kit lock`, for pip's --require-hashes. Not for editing.\n"
NONE_FIT = "There is no such set of versions{}. uv says:\n{}"


def renew():
    """Write the lock files anew and say what changed. SystemExit where no set of versions fits; then nothing is written."""
    with TemporaryDirectory(prefix="kit-lock-") as folder:
        texts = locked(uv_in(Path(folder)), Path(folder))
    for group, text in texts.items():
        path = LOCKS / f"lock-{group}.txt"
        before, after = pins(path.read_text(encoding="utf-8")) if path.exists() else set(), pins(text)
        path.write_text(f"{HEAD}{made_from(group)}\n{text}", encoding="utf-8", newline="\n")
        changes = sorted(before ^ after, key=lambda pin: (pin.split("==")[0], pin in after))
        print(f"{path.name}: {len(after)} versions", *(f"{'+' if pin in after else '-'} {pin}" for pin in changes), sep="\n  ")
    print("Now try them: python3 -m kit test")
    return 0


def uv_in(folder):
    """A function that runs uv with words and gives what it wrote. It lives in an environment of its own in `folder`."""
    environment = folder / "environment"
    make(environment, UV_GB)
    said = let_pip(environment, [UV], Interpreter.of(environment).packages, lambda: None)
    if said is not None:
        raise SystemExit(meaning(said))

    def uv(*words, doing=""):
        command = [str(python_of(environment)), "-m", "uv", *words, "--cache-dir", "cache"]
        done = subprocess.run(command, cwd=folder, env=surroundings(), capture_output=True, encoding="utf-8", errors="replace")
        if done.returncode:
            raise SystemExit(NONE_FIT.format(doing, done.stderr.strip()))
        return done.stdout

    return uv


def locked(uv, folder):
    """The text of each part's lock file: pins and hashes that no part before it has. Tried for every computer and Python."""
    (folder / "pyproject.toml").write_text(project(), encoding="utf-8")
    for group in GROUPS:
        (folder / f"{group}.in").write_text("\n".join(requirements(group)), encoding="utf-8")
    print("  looking for the newest versions that fit", flush=True)
    whole = uv(*COMPILE, *FOR_ALL, "test.in")
    (folder / "whole.txt").write_text(whole, encoding="utf-8")
    fitting = {group: uv(*COMPILE, *FOR_ALL, f"{group}.in", "--constraints", "whole.txt") for group in ("lab", "serve")} | {"test": whole}
    print(f"  trying them for {len(COMPUTERS)} kinds of computers and {len(PYTHONS)} Pythons", flush=True)
    with ThreadPoolExecutor(AT_ONCE) as several:
        list(several.map(lambda place: refuse_the_unlocked(uv, place, whole), product(COMPUTERS, PYTHONS)))
    before = {"lab": "", "serve": fitting["lab"], "test": fitting["serve"]}
    return {group: "".join(block for block in blocks(text) if block not in blocks(before[group])) for group, text in fitting.items()}


def project():
    """What uv must find built files for."""
    places = [f"sys_platform == '{system}' and platform_machine == '{machine}'" for system, machine in COMPUTERS.values()]
    return f'[project]\nname = "locked"\nversion = "0"\nrequires-python = ">={PYTHONS[0]}"\n[tool.uv]\nrequired-environments = {places}\n'


def refuse_the_unlocked(uv, place, whole):
    """With the locked versions alone, on one kind of computer with one Python: are all packages there, as built files?"""
    computer, version = place
    here = ("--python-platform", computer, "--python-version", version)
    doing = f" for {computer} with Python {version}"
    missing = pins(uv(*COMPILE, *here, "test.in", "--constraints", "whole.txt", doing=doing)) - pins(whole)
    if missing:
        raise SystemExit(NONE_FIT.format(doing, f"also needed: {', '.join(sorted(missing))}"))


def blocks(text):
    """Each pin with its hashes."""
    return re.split(r"(?m)^(?=[\w])", text)[1:]


def pins(text):
    """Each `name==version` in it."""
    return set(re.findall(r"(?m)^[\w.-]+==[^\s;\\]+", text))
