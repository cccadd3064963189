"""A run while it is being recorded: the last readings, the minutes so far, and whether it is steady, renewed as the logger writes."""

from datetime import datetime
from functools import partial
from pathlib import Path
from threading import Event, Lock, Thread, Timer
from threading import enumerate as enumerate_threads

from kit.analysis.steady import check_steady
from kit.estimate import MINUS, rounded
from kit.faults import Fault
from kit.intake.given import asked_of
from kit.live import file_so_far, FOLDER, port_so_far
from kit.settings import or_class
from kit.storage import here
from kit.units import difference, temperature
from kit.widgets.cards import bullets, buttons, text
from kit.widgets.intake import RunCard, still
from kit.widgets.shared import script, told
from kit.words import counted, listed

PACE = ("every_s", "folder")  # what the one that follows takes besides the keywords of read_run
UNSEEN_S = 30.0  # a page that is loaded anew on a slow computer shows its views again sooner; meanwhile nothing that comes in is lost
NO_RUN = "There is no run yet. Wait until both vessels have two readings, then run this cell again."


def follow(path, *, over_min=10, tolerance_c_per_min=None, **keywords):
    """A view of the run that a logger is writing to the file at `path`, with the verdict of `check_steady`. `view.run` is the run so far.
    `tolerance_c_per_min`: None is the class's.

    The file may not be there yet, be cut, moved or begun anew. All that is read is first copied to the folder `received`. `keywords` are
    those of `read_run`. It ends with its Stop button, or when the view is closed.
    """
    asked_of(keywords, "follow", PACE)
    start = partial(file_so_far, path, **keywords)
    return LiveView((f"Following {Path(path).name}", f"follow:{here(path)}"), start, _asked(over_min, tolerance_c_per_min))


def follow_serial(port, *, baud=9600, columns=(), over_min=10, tolerance_c_per_min=None, **keywords):
    """The same for a logger that sends lines of text to the serial port `port` ('COM3', '/dev/ttyUSB0') at `baud` bits a second.

    `columns` are names for a logger that sends none, and no times: columns=["treated (°C)", "control (°C)"]; each line then gets the time
    it came. Unplugged and plugged in again, it goes on. Needs the package pyserial; a Fault says so.
    """
    asked_of(keywords, "follow_serial", PACE)
    start = partial(port_so_far, port, baud=baud, columns=columns, **keywords)
    return LiveView((f"Following the port {port}", f"follow:{port}"), start, _asked(over_min, tolerance_c_per_min))


class LiveView(RunCard):
    """What came so far. `start(pause=...)` gives a `SoFar` whenever something came; a thread waits for them. Made by `follow`."""

    _esm = script("live/live")

    def __init__(self, names, start, steadiness):
        title, key = names
        self.so_far, self._steadiness, self._ending = None, steadiness, ""
        self._stopped, self._drawing, self._views = Event(), Lock(), 0
        super().__init__(key, title, self._drawn, stop=self._stop, seen=self._seen, left=self._left)
        self._thread = _in_place_of_earlier(Thread(target=self._receive, args=(start,), daemon=True, name=key), self._stopped)

    @property
    def run(self):
        """The `Run` so far. A Fault while there is none: what the lines that came leave open, if any came."""
        if self.so_far is None or self.so_far.run is None:
            raise getattr(self.so_far, "question", None) or Fault(NO_RUN)
        return self.so_far.run

    def redraw(self, _change=None):
        """Compose the card anew, from whichever thread."""
        with self._drawing:
            super().redraw()

    def close(self):
        """End the following, and the view."""
        self._stopped.set()
        super().close()

    def _receive(self, start):
        """Show whatever comes until the end. Runs in a thread of its own, so that the notebook stays free."""
        problem = told(self._show_all)(start)
        self._ending = problem or f"Stopped at {datetime.now():%H:%M:%S}. What came is kept. Run this cell again to go on."
        if self.comm is not None:
            self.redraw()

    def _show_all(self, start):
        for self.so_far in start(pause=self._stopped.wait):
            self.redraw()

    def _stop(self, _values):
        self._stopped.set()
        self._thread.join(5)
        return ""

    def _seen(self, _values):
        self._views += 1

    def _left(self, _values):
        """Closed views end it, unless one is open again in a moment."""
        self._views -= 1
        timer = Timer(UNSEEN_S, lambda: self._views > 0 or self._stopped.set())
        timer.daemon = True
        timer.start()

    def _drawn(self):
        end = [text("end", self._ending, tone="fault")] if self._ending else [buttons("do", ("stop", "Stop"))]
        return [{"is": "live", "key": "live"}, *_state(self.so_far, self._steadiness), *end, *_record(self.so_far)]


def _asked(over_min, tolerance_c_per_min):
    return {"over_min": over_min, "tolerance_c_per_min": or_class(tolerance_c_per_min, "tolerance_c_per_min")}


def _in_place_of_earlier(thread, stopped):
    """Start `thread`, once an earlier one that follows the same logger has ended. `stopped` is the event that ends this one."""
    for earlier in enumerate_threads():
        if earlier.name == thread.name and hasattr(earlier, "stopped"):
            earlier.stopped.set()
            earlier.join(5)
    thread.stopped = stopped
    thread.start()
    return thread


def _state(so_far, steadiness):
    if so_far is None:
        return [text("state", "Starting …")]
    trouble = [text("trouble", so_far.trouble, tone="fault")] if so_far.trouble else []
    return [*trouble, *(_readings(so_far, steadiness) if so_far.run else _waiting(so_far))]


def _record(so_far):
    """The chart, what happened on the way, and the files that hold it all."""
    if so_far is None or not so_far.paths:
        return []
    chart = [still("chart", so_far.run)] if so_far.run else []
    events = [bullets("events", "What happened", so_far.events)] if so_far.events else []
    kept = listed(f"{FOLDER}/{path.name}" for path in so_far.paths)
    return [*chart, *events, text("files", f"All that came is in {kept}.", tone="quiet")]


def _waiting(so_far):
    why = so_far.question or ("" if so_far.trouble else "Nothing came yet.")
    return [text("state", f"No run yet. {why}")] if why else []


def _readings(so_far, steadiness):
    """The last readings, how long it runs, and the verdict on its steadiness."""
    run = so_far.run
    question = [text("question", f"The newest lines wait: {so_far.question}", tone="fault")] if so_far.question else []
    length = f"{rounded(run.minutes[-1], 1)} min recorded, {counted(len(run.readings), 'reading')}. The last came at {so_far.at}."
    return [
        {"is": "figures", "key": "last", "pairs": last_readings(run)},
        text("length", length, tone="quiet"),
        {"is": "verdict", "key": "steady", **verdict(run, steadiness)},
        *question,
    ]


def last_readings(run):
    """(name, text) of the newest reading of each vessel and of their difference."""
    columns = {name: (run.readings[name], temperature) for name in ("treated", "control")} | {f"treated {MINUS} control": (run.difference(), difference)}
    known = {name: (column.dropna(), shown) for name, (column, shown) in columns.items()}
    return [[name, shown(column.iloc[-1], 2) if len(column) else "missing"] for name, (column, shown) in known.items()]


def verdict(run, steadiness):
    """{'word', 'text'}: is the difference steady over the last minutes, and how much longer to wait if not."""
    try:
        found = check_steady(run, **steadiness)
    except Fault as fault:
        return {"word": "cannot tell", "text": str(fault)}
    wait = f" Wait {found.wait_min} more." if found.wait_min and found.wait_min.high else ""
    return {"word": found.verdict, "text": f"{found.reason[0].upper()}{found.reason[1:]}{wait}"}
