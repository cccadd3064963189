"""The starter killed while pip installs for real, from a folder of wheels made here: nothing goes on behind its back, and the next start mends."""

import os
import signal
import subprocess
import sys
import sysconfig
import time
import zipfile

import pytest

from kit.bootstrap.environment.environment import must_be_made
from tests.checkouts import OFFLINE, kit, small_checkout

pytestmark = pytest.mark.skipif(os.name == "nt", reason="sends signals as Linux and macOS do")
# Files in each wheel. pip compiles them once they are in place, which takes it long enough to be found at it; a start that is to come to
# its end leaves that out.
MANY, LONG, QUICK = 300, "a = 1 + len('b')\n" * 3000, {"PIP_NO_COMPILE": "1"}


def make_wheel(folder, name):
    """A package of many long files (Python packaging user guide, "Binary distribution format")."""
    info = f"{name}-1.dist-info"
    with zipfile.ZipFile(folder / f"{name}-1-py3-none-any.whl", "w", zipfile.ZIP_DEFLATED) as made:
        for number in range(MANY):
            made.writestr(f"{name}/m{number}.py", LONG)
        made.writestr(f"{info}/METADATA", f"Metadata-Version: 2.1\nName: {name}\nVersion: 1\n")
        made.writestr(f"{info}/WHEEL", "Wheel-Version: 1.0\nGenerator: by hand\nRoot-Is-Purelib: true\nTag: py3-none-any\n")
        made.writestr(f"{info}/RECORD", "")


@pytest.fixture(scope="module")
def checkout(tmp_path_factory):
    folder = small_checkout(tmp_path_factory.mktemp("killed"))
    (folder / "wheels").mkdir()
    for name in ("firstmany", "thenmany"):
        make_wheel(folder / "wheels", name)
    return folder


def settings(checkout):
    """pip finds packages in the folder alone, and is told to put them where they don't belong."""
    return OFFLINE | {"PIP_FIND_LINKS": str(checkout / "wheels"), "PIP_TARGET": str(checkout / "elsewhere")}


def packages(checkout):
    return next((checkout / ".venv").glob("lib/python*/site-packages"))


def of_the_computer():
    """What the computer's own Python holds."""
    return sorted(os.listdir(sysconfig.get_path("purelib", vars={"base": sys.base_prefix})))


def in_the_middle_of(name, checkout):
    """A start whose pip has begun to put the files of a package in place, and pip's id."""
    command = [sys._base_executable, "-m", "kit", "prepare"]
    pipes = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "text": True}
    process = subprocess.Popen(command, cwd=checkout, env=os.environ | settings(checkout), **pipes)
    while f": {name}" not in process.stdout.readline():
        assert process.poll() is None, process.stderr.read()
    until = time.monotonic() + 60
    while not (packages(checkout) / name / "__pycache__").exists():
        assert time.monotonic() < until
        time.sleep(0.001)
    return process, int((checkout / ".venv.pid").read_text())


def test_a_killed_start_leaves_nothing_at_work_and_the_next_one_mends(checkout):
    before = of_the_computer()
    (checkout / "requirements.txt").write_text("firstmany\n")
    process, pip = in_the_middle_of("firstmany", checkout)
    process.kill()
    process.communicate()
    status, said, complaints = kit(checkout, "prepare", python=sys._base_executable, **settings(checkout), **QUICK)
    assert (status, complaints) == (0, "") and "making it anew" in said
    with pytest.raises(ProcessLookupError):
        os.kill(pip, 0)
    assert len(list((packages(checkout) / "firstmany").glob("*.py"))) == MANY and of_the_computer() == before
    assert [path.name for path in checkout.glob(".venv*")] == [".venv"] and not (checkout / "elsewhere").exists()


def test_pip_killed_alone_is_a_sentence_and_known_for_half_done(checkout):
    (checkout / "requirements.txt").write_text("thenmany\n")
    process, pip = in_the_middle_of("thenmany", checkout)
    os.kill(pip, signal.SIGKILL)
    _, complaints = process.communicate()
    assert (process.returncode, complaints) == (
        1,
        "Something ended the program that installs the packages before it was done; a computer short of memory does that. "
        "Close other programs. Then type the same command again: it begins anew and mends what was left half done.\n",
    )
    assert must_be_made(checkout / ".venv") and [path.name for path in checkout.glob(".venv*")] == [".venv"]
