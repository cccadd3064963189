"""JupyterLab, really started: it says when it serves, asks nothing of npm, and leaves nothing outside the learner's folder."""

import os
import re
import signal
import subprocess
import sys
import time
import urllib.request

import pytest

from kit.bootstrap.handover import BEGAN
from kit.bootstrap.places import CHECKOUT

pytestmark = pytest.mark.skipif(os.name == "nt", reason="the stand-in for npm is a script, and the end a signal, as Linux and macOS have them")


@pytest.fixture
def served(tmp_path):
    """What `lab` printed until it served, its page's status and its exit status after Ctrl-C. The home and the temporary folder are new ones."""
    for name in ("home", "temporary", "programs"):
        (tmp_path / name).mkdir()
    npm = tmp_path / "programs" / "npm"
    npm.write_text('#!/bin/sh\ntouch "$HOME/npm-was-asked"\n')
    npm.chmod(0o755)
    path = f"{tmp_path / 'programs'}{os.pathsep}{os.environ['PATH']}"
    own = {"HOME": str(tmp_path / "home"), "TMPDIR": str(tmp_path / "temporary"), "PATH": path, BEGAN: str(time.monotonic())}
    command = [sys.executable, "-m", "kit.commands", "lab", "--no-browser", "--work", str(tmp_path / "work")]
    process = subprocess.Popen(command, cwd=CHECKOUT, env=os.environ | own, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    try:
        said = ""
        while "To end it" not in said:
            assert (line := process.stdout.readline()), said
            said += line
        with urllib.request.urlopen(re.search(r"http://\S+", said)[0], timeout=60) as page:
            process.send_signal(signal.SIGINT)
            yield said, page.status, process.wait(60)
    finally:
        process.kill()
        process.communicate()


def test_it_says_after_how_many_seconds_it_serves_and_leaves_nothing_behind(served, tmp_path):
    said, page, status = served
    assert (page, status) == (200, 0) and re.search(r"^Served \d+\.\d s after the start\. To end it, press Ctrl-C in this window\.$", said, re.M)
    assert not list((tmp_path / "home").iterdir()) and not list((tmp_path / "temporary").iterdir())
