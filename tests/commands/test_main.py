"""The door to the subcommands: what was printed, a status, and an end, whatever still waits in another thread."""

import subprocess
import sys

from kit.bootstrap.places import CHECKOUT

WAITING = """
import runpy, sys, threading
threading.Thread(target=threading.Event().wait).start()
sys.argv[1:] = {words}
runpy.run_module("kit.commands", run_name="__main__")
"""


def test_a_thread_that_waits_for_ever_does_not_keep_a_command_from_ending(tmp_path):
    code = WAITING.format(words=["copy", "00", "--work", str(tmp_path)])
    done = subprocess.run([sys.executable, "-c", code], cwd=CHECKOUT, capture_output=True, text=True, timeout=60)
    assert done.returncode == 0 and "00-your-first-run" in done.stdout
