"""Go on with the environment's Python. Nothing of the person's own Python settings goes along; small matrices want one BLAS thread."""

import os
import subprocess

from kit.bootstrap.places import WINDOWS

BEGAN = "TWIN_VESSELS_BEGAN"
LEFT_BEHIND = ("PYTHONHOME", "PYTHONPATH", "PYTHONSTARTUP")
ONE_THREAD = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}
TAKEN_ALONG = {**ONE_THREAD, "PYTHONNOUSERSITE": "1"}


def hand_over(python, words, began, told=None):
    """Run `kit.commands` with `words` by `python`; its exit status. On Linux and macOS it takes this process's place.

    `began` is the time, of the clock that all processes share, when the person's command started. `told`: environment variables, those of
    the kit's own environment without it.
    """
    command, told = [str(python), "-m", "kit.commands", *words], {**(told or surroundings()), BEGAN: str(began)}
    if not WINDOWS:
        os.execve(python, command, told)
    return wait_for(subprocess.Popen(command, env=told))


def surroundings():
    """The environment variables for a process of the kit."""
    return {name: value for name, value in os.environ.items() if name not in LEFT_BEHIND} | TAKEN_ALONG


def wait_for(process):
    """The exit status. Ctrl-C reaches the process by itself, and it is the one that knows how to end."""
    while True:
        try:
            return process.wait()
        except KeyboardInterrupt:
            continue
