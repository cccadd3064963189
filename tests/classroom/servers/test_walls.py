"""Every attack is tried twice: without the wall it succeeds, so that it is a real one; behind it, it fails in the attacker's own process."""

import os
import platform
import re
from pathlib import Path

import pytest

pytest.importorskip("resource", reason="limits of a process are not for Windows")

from kit.bootstrap.places import KIT
from kit.classroom.servers import calls, fence, limits
from tests.classroom.servers.worlds import attacked, small_class

HEADERS = {"x86_64": "/usr/include/x86_64-linux-gnu/asm/unistd_64.h", "aarch64": "/usr/include/asm-generic/unistd.h"}
needs_fence = pytest.mark.skipif(fence.missing_fence() is not None, reason=str(fence.missing_fence()))
needs_filter = pytest.mark.skipif(calls.missing_filter() is not None, reason=str(calls.missing_filter()))

DENIED = "PermissionError"
FENCED = {
    "read a neighbour's file": DENIED, "read it through a link": DENIED, "list a neighbour's folder": DENIED, "write a neighbour's file": DENIED,
    "change the kit's code": DENIED, "read it by another program": "CalledProcessError", "move a file out": DENIED, "link a file out": DENIED,
    "read by another's working folder": DENIED, "read another's memory": DENIED, "read another's environment": DENIED,
    "read another's command line": DENIED, "list the processes": DENIED, "signal another": DENIED, "reach an abstract socket": DENIED,
    "reach a port": DENIED,
}  # fmt: skip
REFUSED = (
    "start another program", "fork", "open a Unix socket", "limit another's processor", "slow another down", "move another to one processor",
    "schedule another", "make a namespace", "ask for the keys", "open a ring", "change another file's rights", "change another file's time",
    "give another file away", "mark another file", "watch another folder",
    "keep memory beyond its end", "keep counters beyond its end", "keep messages beyond its end", "open a queue of messages",
)  # fmt: skip
LIMITED = {"allocate 3 GB": "MemoryError", "map 3 GB that are shared": "OSError", "write a big file": "OSError"}
NEEDS = "To keep learners' folders apart, Linux 6.12 or newer with Landlock version 6 is needed; Linux {} here"
WORKS = ("work at home", "copy with rights and time", "throw away", "thread", "own limits", "pair of sockets")


@pytest.fixture
def world(tmp_path):
    with small_class(tmp_path) as made:
        yield made


@needs_fence
def test_without_a_wall_each_attack_succeeds(world):
    not_everywhere = {"open a ring", "make a namespace", "ask for the keys", "mark another file", "open a queue of messages"}  # containers, older file systems
    tried = [*FENCED, *(name for name in REFUSED if name not in not_everywhere), "write a big file"]
    if not os.access(KIT / "__init__.py", os.W_OK):  # as where root has installed it
        tried.remove("change the kit's code")
    assert attacked(world, "nothing", tried) == dict.fromkeys(tried, "done")


@needs_fence
def test_the_fence_alone_holds(world):
    assert attacked(world, "fence", FENCED) == FENCED


@needs_fence
def test_a_namespace_of_ones_own_leads_nowhere(world):
    name = "read it in a namespace of one's own"
    assert attacked(world, "fence", [name]) == {name: "CalledProcessError"}


@needs_filter
def test_calls_are_refused(world):
    assert attacked(world, "calls", REFUSED) == dict.fromkeys(REFUSED, DENIED)
    assert attacked(world, "calls", ["change them by a newer call"]) == {"change them by a newer call": "OSError"}


@needs_fence
def test_limits_are_python_errors(world):
    assert attacked(world, "limits", LIMITED) == LIMITED
    assert attacked(world, "limits+powers", ["raise a limit"])["raise a limit"] in ("ValueError", DENIED)


@needs_fence
@needs_filter
def test_behind_all_walls_the_attacks_fail_and_work_goes_on(world):
    result = attacked(world, "limits+fence+calls+powers", [*FENCED, *REFUSED, *LIMITED, *WORKS])
    assert {name for name, came in result.items() if came == "done"} == set(WORKS)


@needs_fence
def test_threads_are_limited(world):
    assert attacked(world, "nothing", ["start any number of threads"]) == {"start any number of threads": "RuntimeError"}


@pytest.mark.parametrize("machine", calls.MACHINES)
def test_the_numbers_are_those_of_the_kernels_own_headers(machine):
    header = Path(HEADERS[machine])
    if not header.exists():
        pytest.skip(f"no {header} here")
    told = dict(re.findall(r"#define __NR_(\w+) (\d+)", header.read_text()))
    ours = {name: number for name, number in calls.MACHINES[machine].items() if name != "machine"}
    assert {name: int(told[name]) for name in ours} == ours


def test_a_full_folder_and_removed_files_are_counted(tmp_path):
    (tmp_path / "in").mkdir()
    (tmp_path / "in" / "big").write_bytes(bytes(3 * limits.MIB))
    (tmp_path / "away").symlink_to("/usr")
    assert 3 * limits.MIB <= limits.used(tmp_path, 100 * limits.MIB) <= 3 * limits.MIB + 3 * limits.ENTRY
    assert limits.used(tmp_path, limits.MIB) >= limits.MIB
    with open(tmp_path / "gone", "wb") as file:
        (tmp_path / "gone").unlink()
        before = limits.held("self")
        file.write(bytes(3 * limits.MIB))
        file.flush()
        assert limits.held("self") - before >= 3 * limits.MIB


@pytest.mark.parametrize(
    "system, version, sentence",
    [
        ("darwin", 7, "Only Linux can keep learners' folders apart, and this computer runs something else."),
        ("linux", -1, f"{NEEDS} has no Landlock, or it is switched off."),
        ("linux", 4, f"{NEEDS} has version 4 of Landlock."),
        ("linux", 6, None),
    ],
)
def test_the_reason_is_one_sentence(monkeypatch, system, version, sentence):
    monkeypatch.setattr(fence.sys, "platform", system)
    monkeypatch.setattr(fence.ctypes, "CDLL", lambda *_, **__: type("Libc", (), {"syscall": lambda *_: version}))
    assert fence.missing_fence() == (sentence and sentence.format(platform.release()))


def test_an_unknown_processor_is_named(monkeypatch):
    monkeypatch.setattr(calls.platform, "machine", lambda: "riscv64")
    assert calls.missing_filter() == "To keep learners apart, the kit knows x86_64 and aarch64; this processor is riscv64."
