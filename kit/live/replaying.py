"""A bundled run written to a file line by line, as its logger wrote it, only faster: so that a growing file can be met without a bench."""

from os import SEEK_END
from pathlib import Path
from threading import current_thread, Thread
from threading import enumerate as enumerate_threads
from time import monotonic, sleep
from weakref import WeakSet

from kit.examples import example_path
from kit.faults import Fault

PACE_S = 0.2  # between two looks at the clock
FASTEST = 600
ENDED = WeakSet()  # threads that are to write no more


def start_replay(name, times=10, folder="."):
    """Write the bundled run `name` to `replay-NAME.csv` in `folder`, `times` as fast as it was recorded; gives the path at once.

    The file is begun anew each time. It ends with the run. A Fault for an unknown run, or a speed that can't be.
    """
    return start_writing(example_path(name).read_text(encoding="utf-8"), Path(folder) / f"replay-{Path(name).stem}.csv", times)


def start_writing(text, path, times):
    """The same with the `text` of any run's file, elapsed seconds first, written to `path`, whose place it gives."""
    if not 1 <= times <= FASTEST:
        raise Fault(f"A run can be replayed 1 to {FASTEST} times as fast, not {times!r} times.")
    path, (header, *lines) = Path(path).absolute(), text.splitlines(keepends=True)
    _end_earlier(str(path))
    path.write_text(header, encoding="utf-8")
    Thread(target=_write, args=(path, lines, times), daemon=True, name=str(path)).start()
    return path


def _end_earlier(name):
    """End the writing to this file that an earlier call began: two hands would mix their lines."""
    for earlier in enumerate_threads():
        if earlier.name == name:
            ENDED.add(earlier)
            earlier.join(5)


def _write(path, lines, times):
    """Each line when its time has come. The file may be taken away meanwhile, or begun anew: then it is over."""
    began, due = monotonic(), [float(line.split(",", 1)[0]) / times for line in lines]
    at = 0
    while at < len(lines) and current_thread() not in ENDED:
        now = monotonic() - began
        ready = next((n for n in range(at, len(lines)) if due[n] > now), len(lines))
        try:
            with open(path, "r+", encoding="utf-8") as file:
                file.seek(0, SEEK_END)
                file.writelines(lines[at:ready])
        except OSError:
            return
        at = ready
        sleep(PACE_S)
