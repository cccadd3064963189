"""`test`: three rounds, one honest status, one closing line. Tried on a small kit with tests of its own."""

import os
import re
import shutil
import signal
import subprocess
import sys

import pytest

from kit.commands.test import TESTS, choice, overall
from tests.checkouts import small_checkout

SETTINGS = """
[tool.pytest.ini_options]
testpaths = ["tests"]
markers = ["alone: by itself", "browser: drives one"]
addopts = "-q -p no:cacheprovider -p xdist -p pytest_timeout"
timeout = "{limit}"
faulthandler_timeout = "{last}"
faulthandler_exit_on_timeout = true
silence = "0.5"
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
    (folder / "tests" / "deep").mkdir(parents=True)
    (folder / "tests" / "test_together.py").write_text(together.format(wish=wish))
    (folder / "tests" / "deep" / "test_by_itself.py").write_text(ALONE)
    done, last = kit_test(folder, *words)
    return done.returncode, last


def kit_test(folder, *words, limit=60):
    """How `test WORDS` ended in a small checkout around the tests in `folder`, and its last line without the seconds."""
    small_checkout(folder)
    (folder / "pyproject.toml").write_text(SETTINGS.format(limit=limit, last=limit + 5))
    inner = {name: value for name, value in os.environ.items() if not name.startswith("PYTEST")} | {"PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"}
    command = [sys.executable, "-m", "kit.commands", "test", *words]
    done = subprocess.run(command, cwd=folder, env=inner, capture_output=True, text=True)
    return done, done.stdout.splitlines()[-1].rsplit(" in ", 1)[0]


def with_our_limits(folder, tests):
    """A folder with these tests under the limits and attempts of our own."""
    (folder / "tests").mkdir()
    shutil.copy(TESTS / "conftest.py", folder / "tests")
    (folder / "tests" / "test_sample.py").write_text(tests)
    return folder


def test_all_rounds_are_run_and_counted_together(tmp_path):
    assert run(tmp_path) == (0, "6 passed, 0 failed, 1 skipped")


ATTEMPTS = """
import pytest
from pathlib import Path
@pytest.fixture(scope="session")
def shared(): return []
@pytest.mark.alone
def test_late(tmp_path, shared):
    shared.append(1)
    (tmp_path / "folder").mkdir()
    seen = Path("seen.txt")
    first = not seen.exists()
    seen.touch()
    assert not first, "the machine was busy"
    assert shared == [1]
@pytest.mark.browser
def test_wrong():
    seen = Path("wrong.txt")
    first = not seen.exists()
    seen.touch()
    assert not first
"""


def test_only_what_measures_time_is_tried_again_from_nothing_and_the_reason_is_kept(tmp_path):
    done, last = kit_test(with_our_limits(tmp_path, ATTEMPTS))
    assert (done.returncode, last) == (1, "1 passed, 1 failed, 0 skipped")
    tried = [line for line in done.stdout.splitlines() if "was tried" in line]
    assert tried == ["test_late was tried 2 times; why is in ci-output/tests-alone.xml"]
    assert "the machine was busy" in (tmp_path / "ci-output" / "tests-alone.xml").read_text("utf-8")


HANGING = """
import pytest, threading
@pytest.fixture
def stuck():
    yield
    threading.Event().wait()
def test_hangs(): wait_for_what_never_comes()
def wait_for_what_never_comes(): threading.Event().wait()
def test_fails_and_is_not_put_away(stuck): assert False, "first this"
def test_passes(): pass
@pytest.mark.alone
def test_hangs_alone(): wait_for_what_never_comes()
"""


def test_a_test_that_waits_for_ever_fails_by_name_with_the_place_where_it_stood_and_the_others_run(tmp_path):
    done, last = kit_test(with_our_limits(tmp_path, HANGING), limit=2)
    assert (done.returncode, last) == (1, "1 passed, 4 failed, 0 skipped")  # one that fails twice: in the test and in its fixture
    for said in ("in wait_for_what_never_comes", "Timeout (>2.0s)", "first this", "ERROR at teardown of test_fails_and_is_not_put_away"):
        assert said in done.stdout, said
    assert "test_hangs_alone was tried 3 times" in done.stdout
    named = r"No test has ended for 0\.5 s\. Running:\n(?:  .+\n)*?  tests/test_sample\.py::test_hangs, for "  # beside it the other process runs one
    assert re.search(named, done.stderr)


DEAF = """
import pytest, signal, time
def test_passes(): pass
def test_deaf():
    signal.pthread_sigmask(signal.SIG_BLOCK, [signal.SIGALRM])
    time.sleep(600)
@pytest.mark.alone
def test_deaf_alone(): test_deaf()
"""


@pytest.mark.skipif(not hasattr(signal, "pthread_sigmask"), reason="without signals a test's process is ended at once")
def test_a_test_that_does_not_hear_of_its_limit_is_ended_with_its_process(tmp_path):
    done, last = kit_test(with_our_limits(tmp_path, DEAF), limit=1)
    assert (done.returncode, last) == (1, "1 passed, 1 failed, 0 skipped")
    assert "crashed while running 'tests/test_sample.py::test_deaf'" in done.stdout
    assert "A round ended before its tests had: tests-alone. Why is said above" in done.stdout
    assert done.stderr.count("in test_deaf\n") == 2  # the stack of each


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
        (["hydrogen", "clock"], ["-k", "hydrogen or clock"]),
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
