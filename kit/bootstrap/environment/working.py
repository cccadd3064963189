"""Python's modules at work for the kit, watched; and what an earlier start may have left at work."""

import os
import signal
import subprocess
import sys
import time
from contextlib import contextmanager
from pathlib import Path

from kit.bootstrap.handover import surroundings
from kit.bootstrap.locking import lock
from kit.bootstrap.places import WINDOWS

SCRIPT = Path(__file__).with_name("watched.py")
ENDS_BY_ITSELF_S, ENDED_S = 20, 10
ENDING = "  Something of an earlier set-up is still at work. Ending it."
STAYS = "A program of an earlier set-up does not end. Start the computer anew, then type the same command again."
# Where pip would put things or take them from instead: a person's own settings must not lead it out of the environment.
ELSEWHERE = ("PIP_TARGET", "PIP_PREFIX", "PIP_ROOT", "PIP_PYTHON")
HERE = {"PYTHONUTF8": "1", "PIP_USER": "0"}  # "install for the user", where it is set, is refused inside an environment


@contextmanager
def at_work(environment, module, *words, python=None, scratch=None):
    """A process that runs `module`, its words to be read line by line. Without `python`, this one's, and no environment to work inside.

    It ends with this process or with the block. Passing files go to the folder `scratch`.
    """
    command = [str(python or sys.executable), "-I", "-X", "utf8", str(SCRIPT), str(pid_file(environment)), str(environment) if python else "-"]
    pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "stderr": subprocess.STDOUT, "encoding": "utf-8", "errors": "replace"}
    group = {} if WINDOWS else {"start_new_session": True}  # its own group of processes, so that it can end the whole of it
    passing = {name: str(scratch) for name in ("TMPDIR", "TEMP", "TMP")} if scratch else {}
    kept = {name: value for name, value in surroundings().items() if name not in ELSEWHERE}
    try:
        with subprocess.Popen([*command, module, *words], env=kept | HERE | passing, **pipes, **group) as process:
            yield process
    finally:
        if free_within(pid_file(environment), 1):
            pid_file(environment).unlink(missing_ok=True)


def pid_file(environment):
    return environment.with_name(f"{environment.name}.pid")


def let_end(environment):
    """Wait until nothing of an earlier set-up is at work any more. It ends by itself in a moment; what doesn't is ended by its own id.

    Who holds the file locked is who wrote its id there, so the id can't have passed to another program.
    """
    file = pid_file(environment)
    if not free_within(file, ENDS_BY_ITSELF_S):
        print(ENDING, flush=True)
        end(file.read_text())
        if not free_within(file, ENDED_S):
            raise SystemExit(STAYS)
    file.unlink(missing_ok=True)


def free_within(file, seconds):
    """Does nobody hold `file` locked any more, `seconds` from now at the latest?"""
    until = time.monotonic() + seconds
    while file.exists():
        with open(file, "r+") as opened:
            try:
                lock(opened)
                return True
            except (BlockingIOError, PermissionError):
                if time.monotonic() > until:
                    return False
        time.sleep(0.05)
    return True


def end(number):
    if not number.isdigit():
        return
    try:
        if WINDOWS:
            os.kill(int(number), signal.SIGTERM)
        else:
            os.killpg(int(number), signal.SIGKILL)
    except OSError:
        pass  # it ended by itself meanwhile
