"""Run one of Python's own modules (pip, venv) so that it works inside its environment only and never outlives the kit that began it.

Called as a file, by the Python that is to do the work: `watched.py PIDFILE ENVIRONMENT MODULE WORDS...`; for `-` as the environment
there is none yet. It ends with its starter, however that ends: their pipe closes then. As long as it works it holds PIDFILE locked,
with its own process id inside.
"""

import os
import runpy
import signal
import subprocess
import sys
import threading
from pathlib import Path

OUTSIDE = "This Python keeps its packages in {}, not in {}. Nothing was installed."
TWICE = "An earlier set-up is still at work."


def main(pid_file, environment, module, *words):
    """The module's run, as `python -m MODULE WORDS` has it. SystemExit with a sentence where it must not begin."""
    end_with_the_starter()
    if environment != "-" and not (os.path.exists(environment) and os.path.samefile(sys.prefix, environment)):
        raise SystemExit(OUTSIDE.format(sys.prefix, environment))
    with held(pid_file):
        sys.argv = [module, *words]
        runpy.run_module(module, run_name="__main__", alter_sys=True)


def held(pid_file):
    """The open file, locked for as long as this process lives and holding its id."""
    from kit.bootstrap.locking import lock

    file = open(pid_file, "a+")
    try:
        lock(file)
    except (BlockingIOError, PermissionError):
        raise SystemExit(TWICE) from None
    file.truncate(0)
    file.write(str(os.getpid()))
    file.flush()
    return file


def end_with_the_starter():
    """Watch the pipe from the starter. Others get an empty input in its place: on Windows a waiting read would stop them, too."""
    pipe, nothing = os.dup(0), os.open(os.devnull, os.O_RDONLY)
    os.dup2(nothing, 0)
    threading.Thread(target=lambda: os.read(pipe, 1) or end_all(), daemon=True).start()


def end_all():
    """End this process and all that it started, at once."""
    if os.name == "nt":
        subprocess.run(["taskkill", "/T", "/F", "/PID", str(os.getpid())])
    elif os.getpgrp() == os.getpid():
        os.killpg(os.getpid(), signal.SIGKILL)
    os._exit(1)


if __name__ == "__main__":
    sys.path.append(str(Path(__file__).absolute().parents[3]))
    main(*sys.argv[1:])
