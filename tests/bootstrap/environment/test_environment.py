"""The environment, really made: in a folder with spaces and accents, mended, moved, refused."""

import json
import os
import re
import signal
import subprocess
import sys
import sysconfig
import time
from pathlib import Path

import pytest

from kit.bootstrap.environment.environment import must_be_made, set_up, stands
from kit.bootstrap.places import python_of
from kit.bootstrap.requirements import fingerprint, GROUPS
from tests.checkouts import OFFLINE, kit, small_checkout

SET_UP = "The kit is set up. To open the lessons: python3 -m kit lab\n"
BEGINS = "Setting the kit up in FOLDER/.venv. This takes 1 to 3 minutes, and only the first time.\n"
posix_only = pytest.mark.skipif(os.name == "nt", reason="sends signals or changes users as Linux and macOS do")


@pytest.fixture(scope="module")
def first(tmp_path_factory):
    """A checkout after its first set-up, and what that printed. The folder's name has a space and letters beyond ASCII."""
    folder = small_checkout(tmp_path_factory.mktemp("räume für 日本") / "the kit")
    return folder, kit(folder, "prepare")


@pytest.fixture
def checkout(first):
    """The checkout, with its note put back afterwards."""
    note = first[0] / ".venv" / "kit-note.json"
    as_it_was = note.read_text()
    yield first[0]
    note.write_text(as_it_was)


def seconds_out(text):
    return re.sub(r"in \d+ s", "in N s", text)


def test_the_first_set_up_says_what_it_does(first):
    status, said, complaints = first[1]
    assert (status, seconds_out(said), complaints) == (0, f"{BEGINS}  making the environment\nSet up in N s.\n{SET_UP}", "")


def test_the_environment_finds_the_kit_from_anywhere(first, tmp_path):
    python = python_of(first[0] / ".venv")
    where = "import kit; print(ascii(kit.__file__))"
    found = subprocess.run([str(python), "-I", "-c", where], cwd=tmp_path, capture_output=True, text=True)
    assert found.stdout.strip() == ascii(str(first[0] / "kit" / "__init__.py"))


def test_the_second_start_asks_nothing_of_pip(checkout):
    assert kit(checkout, "prepare", PIP_LOG=str(checkout / "pip.log")) == (0, SET_UP, "") and not (checkout / "pip.log").exists()


def test_nothing_is_left_but_the_environment(first):
    assert [path.name for path in first[0].glob(".venv*")] == [".venv"]
    assert not [path for path in (first[0] / ".venv").iterdir() if path.suffix == ".part" or path.name == "passing"]


def test_the_test_packages_come_later_and_leave_the_rest_standing(checkout):
    status, said, _ = kit(checkout, "test", "nothing", python=python_of(checkout / ".venv"))
    note = json.loads((checkout / ".venv" / "kit-note.json").read_text())
    assert "making the environment" not in said and "Set up in" in said and status == 1  # there is no pytest in there
    assert note["holds"] == {group: fingerprint(group, checkout) for group in GROUPS["test"]}


def test_changed_requirements_are_installed_into_what_stands(checkout):
    requirements = checkout / "requirements.txt"
    as_it_was = requirements.read_text()
    requirements.write_text("pip>=1\n")
    first_time, second_time = kit(checkout, "prepare", PIP_USER="1")[1], kit(checkout, "prepare")[1]
    requirements.write_text(as_it_was)
    assert seconds_out(first_time) == f"{BEGINS}Set up in N s.\n{SET_UP}" and second_time == SET_UP


def test_without_a_network_the_failure_is_named_and_what_stood_still_stands(checkout):
    requirements = checkout / "requirements.txt"
    as_it_was = requirements.read_text()
    requirements.write_text("pip\ntwin-vessels-needs-no-such-package\n")
    nowhere = {"PIP_NO_INDEX": "", "PIP_INDEX_URL": "http://127.0.0.1:9/simple", "PIP_RETRIES": "0"}
    status, _, complaint = kit(checkout, "prepare", **nowhere)
    requirements.write_text(as_it_was)
    assert (status, complaint) == (
        1,
        "The packages could not be fetched: no way to the package index. Check the network (a school's may need its proxy named). "
        "Then type the same command again.\n",
    )
    assert kit(checkout, "prepare") == (0, SET_UP, "")


def test_a_moved_folder_stands_where_it_is_put(checkout):
    elsewhere = checkout.with_name("moved")
    checkout.rename(elsewhere)
    moved = kit(elsewhere, "prepare")
    elsewhere.rename(checkout)
    assert moved == (0, SET_UP, "")


@posix_only
def test_an_interrupted_set_up_heals_itself(tmp_path):
    folder = small_checkout(tmp_path / "cut short")
    process = started(folder)
    while not (folder / ".venv" / "bin").exists():
        time.sleep(0.01)
    os.killpg(process.pid, signal.SIGKILL)
    process.communicate()
    half_made = "  The one that is here was left half done or is from another computer: making it anew.\n"
    status, said, complaints = kit(folder, "prepare")
    assert (status, seconds_out(said), complaints) == (0, f"{BEGINS}{half_made}  making the environment\nSet up in N s.\n{SET_UP}", "")


@posix_only
def test_ctrl_c_during_the_set_up_is_a_sentence(tmp_path):
    folder = small_checkout(tmp_path)
    process = started(folder)
    os.killpg(process.pid, signal.SIGINT)
    _, complaints = process.communicate(timeout=60)
    assert (process.returncode, complaints) == (130, "\nStopped. Type the same command again to go on.\n")


def started(folder):
    """A set-up in a group of its own, as a terminal starts it, in the middle of making the environment."""
    both = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "text": True}
    process = subprocess.Popen(
        [sys.executable, "-m", "kit", "prepare"], cwd=folder, env=os.environ | OFFLINE, start_new_session=True, **both
    )
    while (said := process.stdout.readline()) != "  making the environment\n":
        assert said, process.stderr.read()
    return process


@pytest.mark.parametrize("note", ["", "[]", "null", '{"holds": [1]}', '{"holds": {"lab": "HOLDS"}}', '{"made_for": "3.11 linux"}'])
def test_a_damaged_note_is_no_note(note, checkout):
    (checkout / ".venv" / "kit-note.json").write_text(note.replace("HOLDS", fingerprint("lab", checkout)))
    assert must_be_made(checkout / ".venv") and not stands("lab", checkout / ".venv")


@posix_only
def test_a_broken_link_to_its_python_beside_an_empty_note_is_mended_too(checkout):
    python, note = checkout / ".venv" / "bin" / "python", checkout / ".venv" / "kit-note.json"
    led_to = python.readlink()
    python.unlink()
    python.symlink_to("nowhere")
    note.write_text("")
    mended = must_be_made(checkout / ".venv")
    python.unlink()
    python.symlink_to(led_to)
    assert mended


@posix_only
def test_what_a_cut_off_deletion_left_is_made_anew_and_the_computers_own_python_untouched(first):
    before = everything_in(sysconfig.get_path("purelib", vars={"base": sys.base_prefix}))
    (first[0] / ".venv" / "kit-note.json").unlink()
    (first[0] / ".venv" / "pyvenv.cfg").unlink()  # its Python is at home where the computer's own is, now
    status, said, complaints = kit(first[0], "prepare", python=sys._base_executable)
    assert (status, complaints) == (0, "") and "making it anew" in said
    assert everything_in(sysconfig.get_path("purelib", vars={"base": sys.base_prefix})) == before
    assert [path.name for path in first[0].glob(".venv*")] == [".venv"] and (first[0] / ".venv" / "pyvenv.cfg").exists()


def everything_in(folder):
    return sorted(path.name for path in Path(folder).iterdir())


@posix_only
def test_an_environment_of_somebody_else_whose_python_is_at_home_elsewhere_is_refused(tmp_path):
    folder = small_checkout(tmp_path)
    (folder / ".venv" / "bin").mkdir(parents=True)
    (folder / ".venv" / "bin" / "python").symlink_to(sys._base_executable)
    status, _, complaint = kit(folder, "prepare", python=sys._base_executable)
    assert status == 1 and complaint.startswith("The folder FOLDER/.venv was not made by the kit and can't be used here.")


@posix_only
def test_a_python_at_home_elsewhere_is_found_out_before_pip_begins(tmp_path, monkeypatch):
    monkeypatch.setattr("kit.bootstrap.environment.environment.must_be_made", lambda environment: False)
    monkeypatch.setattr("kit.bootstrap.environment.environment.install", lambda *words: pytest.fail("pip was let loose"))
    (tmp_path / ".venv" / "bin").mkdir(parents=True)
    (tmp_path / ".venv" / "bin" / "python").symlink_to(sys._base_executable)
    with pytest.raises(SystemExit) as end:
        set_up("lab", tmp_path / ".venv")
    assert str(end.value) == (
        "The environment's Python can't start, or keeps its packages elsewhere; so nothing was installed. Delete the folder .venv, "
        "then type the same command again."
    )


def test_an_environment_from_another_computer_is_made_anew(checkout):
    note = checkout / ".venv" / "kit-note.json"
    assert not must_be_made(checkout / ".venv")
    note.write_text(note.read_text().replace('"made_for": "3', '"made_for": "windows 3'))
    assert must_be_made(checkout / ".venv")


def test_a_folder_that_the_kit_did_not_make_is_left_alone(tmp_path):
    folder = small_checkout(tmp_path)
    (folder / ".venv").mkdir()
    (folder / ".venv" / "diary.txt").write_text("mine")
    status, _, complaint = kit(folder, "prepare")
    assert (status, complaint) == (
        1,
        "The folder FOLDER/.venv was not made by the kit and can't be used here. Give it another name, then type the same command again.\n",
    )
    assert (folder / ".venv" / "diary.txt").read_text() == "mine"


@posix_only
def test_a_folder_without_permission_is_a_sentence(tmp_path):
    folder = small_checkout(tmp_path / "theirs")
    folder.chmod(0o555)
    # Permissions hold root only where it has put its powers down.
    powerless = ["setpriv", "--bounding-set=-all", "--inh-caps=-all"] if os.geteuid() == 0 else []
    opened = subprocess.run([*powerless, sys.executable, "-m", "kit", "prepare"], cwd=folder, capture_output=True, text=True)
    assert (opened.returncode, opened.stderr.replace(str(folder), "FOLDER")) == (
        1,
        "The kit may not write in FOLDER. Move its folder to a place that is yours, such as your desktop, and start it there.\n",
    )
