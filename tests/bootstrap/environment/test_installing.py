"""pip's words, told on and explained. A script that prints what pip printed stands in for pip, so that its failures can be had at will."""

import os
import stat
import sys
import time
from types import SimpleNamespace

import pytest

from kit.bootstrap.environment import installing
from kit.bootstrap.environment.installing import install, name_in
from kit.bootstrap.places import python_of
from kit.bootstrap.requirements import requirements


def pretended(environment, body):
    """An environment whose Python runs `body` instead of pip, with pip's words in `sys.argv`."""
    (environment / "pip.py").write_text(f"import os, sys, time\nfrom pathlib import Path\nhere = Path(__file__).parent\n{body}\n")
    program = python_of(environment)
    program.parent.mkdir()
    program.write_text(f"#!/bin/sh\nexec '{sys.executable}' '{environment / 'pip.py'}' \"$@\"\n")
    program.chmod(program.stat().st_mode | stat.S_IXUSR)
    return environment


WORKS = """
print("Collecting pandas<4,>=3.1 (from -r requirements.txt (line 4))")
print("  Downloading pandas-3.1.1-cp311.whl (12.4 MB)")
print("Collecting pandas")
print("Processing /sticks/wheels/plotly-7.1.0-py3-none-any.whl")
print("Installing collected packages: plotly, pandas", flush=True)
def wait_for(sign):
    while not (here / sign).exists(): time.sleep(0.01)
wait_for("a second has passed")
(here / "pandas-3.1.1.dist-info").mkdir()
wait_for("one was counted")
print("Successfully installed pandas-3.1.1 plotly-7.1.0")
"""
posix_only = pytest.mark.skipif(os.name == "nt", reason="the stand-in for pip is a script as Linux and macOS run them")


@posix_only
def test_each_package_is_told_once_and_then_how_many_are_in_place(tmp_path, capsys, monkeypatch):
    begun, in_place = [], [False]

    def second(_):
        (tmp_path / "a second has passed").touch()
        if in_place[0]:
            (tmp_path / "one was counted").touch()
        in_place[0] = (tmp_path / "pandas-3.1.1.dist-info").exists()
        time.sleep(0.01)

    monkeypatch.setattr(installing, "time", SimpleNamespace(sleep=second))
    install(pretended(tmp_path, WORKS), "lab", tmp_path, lambda: begun.append(True))
    assert capsys.readouterr().out == "  fetching 1: pandas\n  fetching 2: plotly\n  installed 1 of 2\n"
    assert begun == [True]


@posix_only
def test_a_failure_before_the_first_change_changes_nothing(tmp_path):
    begun = []
    with pytest.raises(SystemExit) as end:
        install(pretended(tmp_path, 'print("ERROR: HTTP error 403")\nsys.exit(1)'), "lab", tmp_path, lambda: begun.append(True))
    assert begun == [] and str(end.value) == (
        "The packages could not be installed. Check the network. Then type the same command again. If it stops here again, show these "
        "lines to somebody who knows Python: ERROR: HTTP error 403"
    )


@posix_only
@pytest.mark.parametrize("ending", ["os.kill(os.getpid(), 9)", "sys.exit(1)"])
def test_pip_that_something_ended_is_a_sentence(tmp_path, ending):
    with pytest.raises(SystemExit) as end:
        install(pretended(tmp_path, f'print("Collecting pandas", flush=True)\n{ending}'), "lab", tmp_path, None)
    assert str(end.value) == (
        "Something ended the program that installs the packages before it was done; a computer short of memory does that. "
        "Close other programs. Then type the same command again: it begins anew and mends what was left half done."
    )


LOCK_HOLDS_NO_PYWINPTY = """
if "--require-hashes" in sys.argv:
    print("ERROR: In --require-hashes mode, all requirements must have their versions pinned with ==. These do not:", flush=True)
    sys.exit(1)
(here / "words").write_text("\\n".join(sys.argv))
"""


@posix_only
def test_where_the_lock_lacks_a_package_the_newest_that_fit_are_taken_and_it_says_so(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(installing, "lock_files", lambda group: [tmp_path / "lock-lab.txt"])
    install(pretended(tmp_path, LOCK_HOLDS_NO_PYWINPTY), "lab", tmp_path, None)
    assert capsys.readouterr().out == "  The versions that were tested together are not all made for this computer. Taking the newest ones that are.\n"
    assert (tmp_path / "words").read_text().splitlines()[-len(requirements("lab")) :] == requirements("lab")


CHANGED = 'print("ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM THE REQUIREMENTS FILE.")\nsys.exit(1)'


@posix_only
def test_a_file_that_differs_from_its_hash_is_never_taken_instead(tmp_path, monkeypatch):
    monkeypatch.setattr(installing, "lock_files", lambda group: [tmp_path / "lock-lab.txt"])
    with pytest.raises(SystemExit) as end:
        install(pretended(tmp_path, CHANGED), "lab", tmp_path, None)
    assert str(end.value) == (
        "A package came cut short or changed, so it was not installed. Type the same command again. If it stops here again, try another "
        "network."
    )


@posix_only
def test_pip_keeps_its_passing_files_in_the_environment_and_they_go(tmp_path):
    (tmp_path / "passing").mkdir()
    (tmp_path / "passing" / "left by a kill.whl").touch()
    install(pretended(tmp_path, '(here / "saw").write_text(f"{os.environ[\'TMPDIR\']} {os.listdir(os.environ[\'TMPDIR\'])}")'), "lab", tmp_path, None)
    assert (tmp_path / "saw").read_text() == f"{tmp_path / 'passing'} []" and not (tmp_path / "passing").exists()


@pytest.mark.parametrize(
    "line, name",
    [
        ("Collecting jupyterlab<5,>=4.6 (from -r requirements.txt (line 2))", "jupyterlab"),
        ("Collecting charset_normalizer<4,>=2", "charset_normalizer"),
        ("Processing /media/stick/wheels/ipywidgets-8.1.9-py3-none-any.whl", "ipywidgets"),
        (r"Processing d:\wheels\statsmodels-0.15.0-cp311-cp311-win_amd64.whl", "statsmodels"),
        ("Requirement already satisfied: six in ./lib", None),
        ("  Downloading six-1.17.0-py2.py3-none-any.whl (11 kB)", None),
    ],
)
def test_the_package_in_a_line_of_pip(line, name):
    assert name_in(line) == name
