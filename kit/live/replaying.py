"""A bundled run written to a file line by line, as its logger wrote it, only faster: so that a growing file can be met without a bench."""

from pathlib import Path
from threading import Thread
from time import monotonic, sleep

from kit.examples import example_path
from kit.faults import Fault

PACE_S = 0.2  # between two looks at the clock
FASTEST = 600


def start_replay(name, times=10, folder="."):
    """Write the bundled run `name` to `replay-NAME.csv` in `folder`, `times` as fast as it was recorded; gives the path at once.

    The file is begun anew each time. It ends with the run. A Fault for an unknown run, or a speed that can't be.
    """
    if not 1 <= times <= FASTEST:
        raise Fault(f"A run can be replayed 1 to {FASTEST} times as fast, not {times!r} times.")
    header, *lines = example_path(name).read_text(encoding="utf-8").splitlines(keepends=True)
    path = Path(folder) / f"replay-{Path(name).stem}.csv"
    path.write_text(header, encoding="utf-8")
    Thread(target=_write, args=(path, lines, times), daemon=True, name=f"replay of {name}").start()
    return path


def _write(path, lines, times):
    """Each line when its time has come. The file may be taken away meanwhile: then it is over."""
    began, due = monotonic(), [float(line.split(",", 1)[0]) / times for line in lines]
    at = 0
    while at < len(lines):
        now = monotonic() - began
        ready = next((n for n in range(at, len(lines)) if due[n] > now), len(lines))
        try:
            with open(path, "a", encoding="utf-8") as file:
                file.writelines(lines[at:ready])
        except OSError:
            return
        at = ready
        sleep(PACE_S)
