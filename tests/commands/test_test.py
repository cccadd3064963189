"""`test`: three rounds, one honest status, one closing line. Tried on a small kit with tests of its own."""

import os
import shutil
import subprocess
import sys

import pytest

from kit.commands.test import TESTS, choice, overall
from tests.checkouts import small_checkout

SETTINGS = """
[tool.pytest.ini_options]
testpaths = ["tests"]
markers = ["alone: by itself", "browser: drives one"]
addopts = "-q -p no:cacheprovider -p xdist"
"""
TOGETHER = """
import pytest
def test_passes(): pass
def test_depends(): assert {wish}
@pytest.mark.skip(reason="not today")
def test_skips(): pass
"""
ALONE = """
import os, pytest
@pytest.mark.alone
def test_alone(): assert "PYTEST_XDIST_WORKER" not in os.environ
def test_shared(): assert "PYTEST_XDIST_WORKER" in os.environ
@pytest.mark.browser
def test_drives(): assert "PYTEST_XDIST_WORKER" in os.environ
@pytest.mark.browser
@pytest.mark.alone
def test_drives_alone(): assert "PYTEST_XDIST_WORKER" not in os.environ
"""


def run(folder, *words, wish=True, together=TOGETHER):
    """What `test WORDS` gives in a small checkout: its status and its last line without the seconds."""
    small_checkout(folder)
    (folder / "pyproject.toml").write_text(SETTINGS)
    (folder / "tests" / "deep").mkdir(parents=True, exist_ok=True)
    (folder / "tests" / "test_together.py").write_text(together.format(wish=wish))
    (folder / "tests" / "deep" / "test_by_itself.py").write_text(ALONE)
    inner = {name: value for name, value in os.environ.items() if not name.startswith("PYTEST")} | {"PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"}
    done = subprocess.run([sys.executable, "-m", "kit.commands", "test", *words], cwd=folder, env=inner, capture_output=True, text=True)
    *before, last = done.stdout.splitlines()
    tried = [line for line in before if "was tried" in line]
    return (done.returncode, last.rsplit(" in ", 1)[0], *tried)


def test_all_rounds_are_run_and_counted_together(tmp_path):
    assert run(tmp_path) == (0, "6 passed, 0 failed, 1 skipped")


ONCE = """
import pytest
from pathlib import Path
@pytest.mark.alone
def test_late():
    seen = Path("seen.txt")
    first = not seen.exists()
    seen.touch()
    assert not first, "the machine was busy"
"""


def test_what_passed_only_when_tried_again_is_named_with_the_place_of_the_reason(tmp_path):
    (tmp_path / "tests").mkdir()
    shutil.copy(TESTS / "conftest.py", tmp_path / "tests")
    (tmp_path / "tests" / "test_once.py").write_text(ONCE)
    said = "test_late was tried 2 times; why is in ci-output/tests-alone.xml"
    assert run(tmp_path, "test_once.py") == (0, "1 passed, 0 failed, 0 skipped", said)
    assert "the machine was busy" in (tmp_path / "ci-output" / "tests-alone.xml").read_text("utf-8")


def test_words_choose_by_name_and_a_failure_in_the_first_round_is_not_hidden_by_the_others(tmp_path):
    assert run(tmp_path, "depends", "by_itself", wish=False) == (1, "4 passed, 1 failed, 0 skipped")


def test_a_file_that_cannot_be_read_fails_each_round(tmp_path):
    assert run(tmp_path, "deep", "test_together.py", together="import nothing_of_that_name") == (1, "2 passed, 3 failed, 0 skipped")


def test_a_word_that_fits_no_test_is_not_a_success(tmp_path):
    assert run(tmp_path, "moon") == (5, "0 passed, 0 failed, 0 skipped")


@pytest.mark.parametrize(
    "words, chosen",
    [
        ([], []),
        (["records"], [str(TESTS / "records")]),
        (["tests/test_words.py::test_x"], [f"{TESTS / 'test_words.py'}::test_x"]),
        (["intake", "clock"], ["-k", "intake or clock"]),
        (["kit", "records"], [str(TESTS / "records"), "-k", "kit"]),  # a folder, but not of tests: so a name
    ],
)
def test_paths_of_tests_narrow_where_to_look_and_other_words_choose_by_name(words, chosen):
    assert choice(words) == chosen


@pytest.mark.parametrize(
    "statuses, status", [([0, 0], 0), ([5, 0], 0), ([0, 5], 0), ([5, 5], 5), ([1, 0], 1), ([0, 1], 1), ([2], 2), ([5, 1], 1)]
)
def test_the_status_is_that_of_the_worst(statuses, status):
    assert overall(statuses) == status
