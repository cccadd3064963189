"""One set-up at a time, and one writer at a time."""

import subprocess
import sys
import time

import pytest

from kit.bootstrap.locking import alone, in_turn

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


def test_who_holds_a_file_too_long_or_has_none_stops_nobody(tmp_path):
    with in_turn(tmp_path / "lock", wait_s=0.2), in_turn(tmp_path / "no folder" / "lock", wait_s=60):
        began = time.monotonic()
        with in_turn(tmp_path / "lock", wait_s=0.2):
            assert 0.2 <= time.monotonic() - began < 5
