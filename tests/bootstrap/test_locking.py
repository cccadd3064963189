"""One set-up at a time."""

import subprocess
import sys

import pytest

from kit.bootstrap.locking import alone

HOLD = """
import sys
from pathlib import Path
from kit.bootstrap.locking import alone
with alone(Path(sys.argv[1])):
    print("held", flush=True)
    sys.stdin.read()
"""


def test_a_second_window_is_told_to_wait_and_a_lock_ends_with_its_process(tmp_path):
    lock = tmp_path / "lock"
    with subprocess.Popen([sys.executable, "-c", HOLD, str(lock)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as other:
        other.stdout.readline()
        with pytest.raises(SystemExit) as end, alone(lock):
            pass
        other.kill()
    assert str(end.value) == "The kit is being set up in another window. Wait until that is done, then type the same command again."
    with alone(lock):
        assert lock.exists()
    assert not lock.exists()
