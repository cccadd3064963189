"""pip's words, told on and explained. A script that prints what pip printed stands in for pip, so that its failures can be had at will."""

import os
import stat
import sys

import pytest

from kit.bootstrap.installing import install, meaning, name_in

AGAIN = "Then type the same command again."
FULL = f"This disk is full. Make room on it. {AGAIN}"
NO_WAY = "The packages could not be fetched: no way to the package index. Check the network (a school's may need its proxy named)."


def pretended(folder, body):
    """A program to be called as `python -m pip install ...` that runs `body` instead."""
    (folder / "pip.py").write_text(f"import sys, time\nfrom pathlib import Path\nhere = Path(__file__).parent\n{body}\n")
    program = folder / "python"
    program.write_text(f"#!/bin/sh\nexec '{sys.executable}' '{folder / 'pip.py'}'\n")
    program.chmod(program.stat().st_mode | stat.S_IXUSR)
    return program


WORKS = """
print("Collecting pandas<4,>=3.1 (from -r requirements.txt (line 4))")
print("  Downloading pandas-3.1.1-cp311.whl (12.4 MB)")
print("Collecting pandas")
print("Processing /sticks/wheels/plotly-7.1.0-py3-none-any.whl")
print("Installing collected packages: plotly, pandas", flush=True)
time.sleep(1.2)
(here / "pandas-3.1.1.dist-info").mkdir()
time.sleep(1.2)
print("Successfully installed pandas-3.1.1 plotly-7.1.0")
"""
posix_only = pytest.mark.skipif(os.name == "nt", reason="the stand-in for pip is a script as Linux and macOS run them")


@posix_only
def test_each_package_is_told_once_and_then_how_many_are_in_place(tmp_path, capsys):
    begun = []
    install(pretended(tmp_path, WORKS), tmp_path, ["pandas"], lambda: begun.append(True))
    assert capsys.readouterr().out == "  fetching 1: pandas\n  fetching 2: plotly\n  installed 1 of 2\n"
    assert begun == [True]


@posix_only
def test_a_failure_before_the_first_change_changes_nothing(tmp_path):
    begun = []
    with pytest.raises(SystemExit) as end:
        install(pretended(tmp_path, 'print("ERROR: HTTP error 403")\nsys.exit(1)'), tmp_path, ["pandas"], lambda: begun.append(True))
    assert str(end.value) == "The packages could not be installed. pip says: ERROR: HTTP error 403" and begun == []


@posix_only
def test_pip_that_ends_without_a_word_is_a_sentence_too(tmp_path):
    with pytest.raises(SystemExit) as end:
        install(pretended(tmp_path, "sys.exit(1)"), tmp_path, ["pandas"], None)
    assert str(end.value) == "The packages could not be installed. pip says nothing."


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


# What pip 23 to 25 print in these cases (common practice, from memory; the first is also met for real in test_environment.py).
@pytest.mark.parametrize(
    "said, sentence",
    [
        (
            "WARNING: Retrying (Retry(total=0)) after connection broken by 'NewConnectionError('<pip._vendor...>: Failed to establish",
            f"{NO_WAY} {AGAIN}",
        ),
        ("ERROR: Could not install packages due to an OSError: [Errno 28] No space left on device", FULL),
        ("ERROR: Could not install packages due to an OSError: [WinError 112] There is not enough space on the disk", FULL),
        (
            "ERROR: Could not install packages due to an OSError: [WinError 5] Access is denied: 'c:\\\\kit\\\\.venv\\\\zmq.pyd'",
            f"A file of the kit is in use or not yours. Close every window that runs it. {AGAIN}",
        ),
        (
            "ERROR: No matching distribution found for statsmodels<1,>=0.15",
            f"A package is not made for this Python on this computer. Get a 64-bit Python 3.11, 3.12 or 3.13 from www.python.org. {AGAIN}",
        ),
    ],
)  # fmt: skip
def test_what_failures_mean(said, sentence):
    assert meaning(["Collecting statsmodels", said]) == sentence
    assert len(sentence.split()) <= 40
