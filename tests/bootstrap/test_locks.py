"""The lock files that are kept: of today's requirements, whole, and what these tests run with."""

import re
import sys
from importlib.metadata import version
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from kit.bootstrap.environment.note import read_note
from kit.bootstrap.requirements import LOCKS, fingerprint, lock_files, requirements

TEXTS = {group: (LOCKS / f"lock-{group}.txt").read_text(encoding="utf-8") for group in ("lab", "serve", "test")}
PINS = [Requirement(line.rstrip(" \\")) for text in TEXTS.values() for line in text.splitlines() if line[:1].isalnum()]


def test_they_are_of_todays_requirements():
    assert lock_files("test"), "requirements.txt or pyproject.toml has changed: python3 -m kit lock"


@pytest.mark.parametrize("group", TEXTS)
def test_each_version_is_exact_and_has_hashes_and_no_file_names_a_place(group):
    lines = [line for line in TEXTS[group].splitlines() if not line.startswith("#")]
    heads = [number for number, line in enumerate(lines) if not line.startswith(" ")]
    assert all(re.fullmatch(r"[a-z0-9.-]+==\S+(?: ; .+)? \\", lines[number]) for number in heads)
    assert all(lines[number + 1].startswith("    --hash=sha256:") for number in heads)
    assert all(re.fullmatch(r"    --hash=sha256:[0-9a-f]{64}(?: \\)?", line) for line in lines if line.startswith(" "))
    assert "://" not in TEXTS[group]


@pytest.mark.parametrize("wanted", [Requirement(each) for each in requirements("test")], ids=str)
def test_each_requirement_is_locked_within_its_bounds(wanted):
    pinned = [pin for pin in PINS if canonicalize_name(pin.name) == canonicalize_name(wanted.name)]
    assert pinned and all(wanted.specifier.contains(str(pin.specifier).removeprefix("==")) for pin in pinned)


# What Python says of itself on three systems (PEP 508), and where each package is needed (its own metadata, or that of who needs it).
SYSTEMS = {"linux": "posix", "darwin": "posix", "win32": "nt"}
NEEDED_ON = {"pywinpty": {"win32"}, "colorama": {"win32"}, "appnope": {"darwin"}, "pexpect": {"linux", "darwin"}}


@pytest.mark.parametrize("name", NEEDED_ON)
def test_what_only_some_systems_need_is_locked_for_them_alone(name):
    (pin,) = (pin for pin in PINS if pin.name == name)
    assert {system for system, kind in SYSTEMS.items() if pin.marker.evaluate({"sys_platform": system, "os_name": kind})} == NEEDED_ON[name]


def test_the_tests_run_with_the_locked_versions():
    if read_note(Path(sys.prefix)).get("holds", {}).get("test") != fingerprint("test"):
        pytest.skip("this environment was not made from these lock files")
    here = {pin.name: str(pin.specifier).removeprefix("==") for pin in PINS if pin.marker is None or pin.marker.evaluate()}
    assert {name: version(name) for name in here} == here
