"""What a fork of the preloaded process does: it becomes a learner's server or kernel, inside its fence and limits."""

import contextlib
import fcntl
import gc
import os
import runpy
import signal
import sys
import tempfile
import traceback
from pathlib import Path

from kit.classroom.servers.calls import drop_powers, refuse_calls
from kit.classroom.servers.fence import fence, readable_by_all
from kit.classroom.servers.limits import limit

LINE = "TWIN_VESSELS_LINE"  # the number of the file by which a learner's server asks for kernels


def become(request, home, files, asking=None):
    """Run `request["module"]` as a program in the learner's folder `home`; never returns.

    `files`: numbers of the two for its words, and of the pipe that its asker holds. `asking`: a server's line for its kernels.
    """
    status = 1
    try:
        readable = readable_by_all()  # before the asker's environment is taken over, which names a course, too
        settle(request, home, files)
        if asking is None:
            end_with_asker()
        shut_in(home, readable, asking is not None)
        if asking is not None:
            os.environ[LINE] = str(asking.fileno())
        os.chdir(request["cwd"])
        sys.argv = [request["module"], *request["argv"]]
        gc.enable()
        runpy.run_module(request["module"], run_name="__main__", alter_sys=True)
        status = 0
    except SystemExit as end:
        status = end.code if isinstance(end.code, int) else int(end.code is not None)
    except BaseException:
        traceback.print_exc()
    finally:
        with contextlib.suppress(Exception):
            sys.stdout.flush()
        os._exit(status)


def settle(request, home, files):
    """Nothing is left of the preloaded process but what it has loaded: a session, files, signals, environment and dice of its own."""
    os.setsid()  # no other group of processes can be joined from here
    out, err, leash = files
    for number, file in enumerate((leash, out, err)):
        os.dup2(file, number)
    for file in files:
        os.close(file)
    for number in (signal.SIGCHLD, signal.SIGTERM):
        signal.signal(number, signal.SIG_DFL)
    signal.signal(signal.SIGINT, signal.default_int_handler)
    os.umask(0o077)
    os.environ.clear()
    os.environ.update({**request["env"], "TMPDIR": str(Path(home, ".tmp"))})
    tempfile.tempdir = None
    sys.modules["numpy"].random.seed()  # or every kernel draws the same numbers


def end_with_asker():
    """Let Linux end this process when the pipe at its input is let go: the server has ended, whose kernel this is."""
    fcntl.fcntl(0, fcntl.F_SETSIG, signal.SIGKILL)
    fcntl.fcntl(0, fcntl.F_SETOWN, os.getpid())
    fcntl.fcntl(0, fcntl.F_SETFL, os.O_RDONLY | os.O_ASYNC)


def shut_in(home, readable, is_server):
    """Limits first, as they are read from outside the fence. A kernel needs no connection to anybody: its server comes to it."""
    limit()
    fence(home, readable, connects=is_server)
    refuse_calls()
    drop_powers()
    os.makedirs(os.environ["TMPDIR"], exist_ok=True)
    if not is_server:
        sys.modules["psutil"] = None  # it looks for programs that a kernel has started, and there are none
