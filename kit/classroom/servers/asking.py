"""Asking the preloaded process for a child, and starting it where there is none."""

import contextlib
import os
import signal
import socket
import subprocess
import sys
import threading
import time
from pathlib import Path

from kit.bootstrap.handover import TAKEN_ALONG
from kit.bootstrap.places import COURSE, KIT
from kit.classroom.place import VARIABLE
from kit.classroom.servers.talk import door_in, hear, KIND, pair, say

ANSWERS_S, READY_S = 30.0, 90.0
# All of the environment that the preloaded process gets: its children can read that in /proc/self/environ, whatever they are given later.
KNOWN_TO_ALL = ("PATH", "HOME", "LANG", "LC_ALL", "TZ", "LD_LIBRARY_PATH", COURSE, VARIABLE)
STARTED, ONE_STARTS = {}, threading.Lock()  # folder: the process that was started for it
SILENT = "The process from which servers and kernels are forked has ended."


class NotForked(Exception):
    """The preloaded process made no child; why, in a sentence."""


class Forked:
    """A child of the preloaded process: as much of `subprocess.Popen` as Jupyter asks for.

    `asking`: a line to the preloaded process. `request`: module, argv, cwd and env, and home where the hub asks. `words`: the file
    number of its output. Raises NotForked.
    """

    stdin = stdout = stderr = returncode = leash = None

    def __init__(self, asking, request, words):
        self.line, theirs = pair()
        leash, self.leash = os.pipe()  # a kernel ends when nobody holds the other end any more, whatever became of the preloaded process
        try:
            with theirs, os.fdopen(leash):
                say(asking, request, [theirs.fileno(), words, words, leash])
            self.line.settimeout(ANSWERS_S)
            answer, _ = hear(self.line)
        except OSError as problem:
            raise NotForked(SILENT) from problem
        if not answer or "pid" not in answer:
            raise NotForked((answer or {}).get("refused", SILENT))
        self.pid = answer["pid"]
        self.line.setblocking(False)

    def poll(self):
        """The exit status; None while it runs, also after the preloaded process has ended."""
        if self.returncode is None:
            with contextlib.suppress(BlockingIOError):
                answer, _ = hear(self.line)
                self.returncode = answer["exit"] if answer else None if is_alive(self.pid) else -signal.SIGKILL
        return self.returncode

    def __del__(self):
        self.let_go()

    def let_go(self):
        """Let go of the pipe: a kernel is ended by that."""
        if self.leash is not None:
            os.close(self.leash)
            self.leash = None

    def wait(self, timeout=None):
        until = None if timeout is None else time.monotonic() + timeout
        while self.poll() is None:
            if until is not None and time.monotonic() > until:
                raise subprocess.TimeoutExpired(str(self.pid), timeout)
            time.sleep(0.02)
        return self.returncode

    def send_signal(self, number):
        """By the preloaded process: a fenced server may not signal its kernel itself. Where that has ended, it can still end the kernel."""
        if self.poll() is None:
            try:
                say(self.line, {"signal": int(number)})
            except OSError:
                with contextlib.suppress(ProcessLookupError, PermissionError):
                    os.kill(self.pid, number)
                if number in (signal.SIGTERM, signal.SIGKILL):
                    self.let_go()

    def terminate(self):
        self.send_signal(signal.SIGTERM)

    def kill(self):
        self.send_signal(signal.SIGKILL)


def is_alive(pid):
    """Is there such a process? Who may not signal it is told so, which is an answer, too."""
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    except PermissionError:
        pass
    return True


def line_to(state):
    """A line to the preloaded process whose door is in the folder `state`. OSError where none answers."""
    line = socket.socket(socket.AF_UNIX, KIND)
    try:
        with door_in(state) as path:
            line.connect(path)
    except OSError:
        line.close()
        raise
    return line


def line_or_start(state):
    """A line to the preloaded process, which is started if none answers. NotForked where it can't be."""
    with ONE_STARTS:
        process = begin(state)
        until = time.monotonic() + READY_S
        while time.monotonic() < until and (process is None or process.poll() is None):
            try:
                return line_to(state)
            except OSError:
                time.sleep(0.05)
        raise NotForked(f"The process from which servers are forked did not start. Its last words are in {Path(state, 'preloaded.log')}")


def begin(state):
    """Start the preloaded process, without waiting, unless one answers (None) or is starting (the process). It outlives the hub."""
    with contextlib.suppress(OSError), line_to(state):
        return None
    if state not in STARTED or STARTED[state].poll() is not None:
        told = {name: os.environ[name] for name in KNOWN_TO_ALL if name in os.environ} | TAKEN_ALONG | {"PYTHONPATH": str(KIT.parent)}
        words = [sys.executable, "-P", "-m", "kit.classroom.servers.preloaded", state]  # -P: imports nothing from its working folder
        with open(Path(state, "preloaded.log"), "ab", opener=lambda path, flags: os.open(path, flags, 0o600)) as log:
            streams = {"stdin": subprocess.DEVNULL, "stdout": log, "stderr": log}
            STARTED[state] = subprocess.Popen(words, env=told, cwd=state, start_new_session=True, **streams)
    return STARTED[state]
