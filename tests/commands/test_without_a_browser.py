"""A machine without a browser: its tests are skipped by name on a person's, and fail in CI."""

import os
import subprocess
import sys

import pytest

from kit.bootstrap.places import CHECKOUT


@pytest.mark.parametrize("ci, status, told", [("", 0, "SKIPPED"), ("true", 1, "Failed:")])
def test_browser_tests_say_what_they_need(ci, status, told):
    words = ["-rs", "--no-fold-skipped", "tests/browser/test_lab.py", "-k", "phone"]
    bare = {"PATH": "", "CI": ci, "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"}
    inner = {name: value for name, value in os.environ.items() if name != "CHROME" and not name.startswith("PYTEST")} | bare
    done = subprocess.run([sys.executable, "-m", "pytest", *words], cwd=CHECKOUT, env=inner, capture_output=True, text=True)
    lines = [line for line in done.stdout.splitlines() if "needs a browser: none found on this machine" in line]
    assert done.returncode == status and any(told in line for line in lines)
    assert "test_on_a_phone_the_file_list_is_closed_and_the_lesson_fills_the_screen" in done.stdout
