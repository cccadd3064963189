"""A logger at a serial port, as lines of text: what it sends, and whether it is plugged in. Needs the package pyserial."""

import time

from kit.faults import Fault
from kit.live.filetail import Arrival
from kit.live.inbox import time_of_day

MOST_BYTES = 1 << 20
INSTALL = "Reading from a serial port needs the package pyserial. It belongs to the kit: stop, and start again with python3 -m kit lab."
NO_LINES = "What comes from {port} are no lines of text. Check the speed of the port: baud=."
CLOSED = "The port {port} can't be opened. Check its name, plug the logger in, and close other programs that use it."
AWAY = "Nothing comes from {port} since {time}: it is unplugged. What came is kept. Plug it in again and it goes on."


class SerialTail:
    """The port `port` ('COM3', '/dev/ttyUSB0') at `baud` bits a second. Unplugged, it is opened again as soon as it is back.

    Whole lines only; the first after opening counts only if it begins with a letter, for it may have come in halfway. With `columns`,
    names for a logger that sends no names and no time, each line gets the milliseconds since the start in front.
    """

    def __init__(self, port, baud=9600, columns=()):
        self.port, self.baud, self.columns = port, baud, tuple(columns)
        self._since, self._last_ms, self._line, self._away_at = time.monotonic(), -1, None, ""
        _library()

    def arrived(self, held):
        """The `Arrival` since the last call. After each opening of the port it begins a new stretch."""
        try:
            opened = self._line is None and self._open()
            return self._received(self._line.read(MOST_BYTES), anew=opened)
        except OSError:
            self.close()
            self._away_at = self._away_at or time_of_day()
            return Arrival(trouble=(AWAY if held else CLOSED).format(port=self.port, time=self._away_at))

    def close(self):
        """Let the port go, so that another program can have it."""
        if self._line is not None:
            self._line.close()
            self._line = None

    def _open(self):
        self._line = _library().Serial(self.port, self.baud, timeout=0, exclusive=True)
        self._rest, self._sure, self._named, self._away_at = b"", False, False, ""
        return True

    def _received(self, data, anew):
        lines, end, self._rest = (self._rest + data).rpartition(b"\n")
        data = lines + end
        if end and not self._sure:
            self._sure, data = True, data if data[:1].isalpha() else data.partition(b"\n")[2]
        trouble = NO_LINES.format(port=self.port) if len(self._rest) > MOST_BYTES else ""
        return Arrival(self._stamped(data) if self.columns else data, anew, trouble)

    def _stamped(self, data):
        """Each line with its time in front, and the names above the first."""
        lines = [line for line in data.replace(b"\r", b"").split(b"\n") if line.strip()]
        between = next((mark for mark in (b";", b"\t", b",") if lines and mark in lines[0]), b",")
        times = [b"%d" % self._next_ms() for _ in lines]
        named = [] if self._named or not lines else [between.join([b"time (ms)", *(name.encode() for name in self.columns)])]
        self._named = self._named or bool(named)
        return b"".join(line + b"\n" for line in [*named, *(at + between + line for at, line in zip(times, lines))])

    def _next_ms(self):
        """Milliseconds since the start, and never the same twice."""
        self._last_ms = max(round(1000 * (time.monotonic() - self._since)), self._last_ms + 1)
        return self._last_ms


def _library():
    try:
        import serial
    except ImportError as problem:
        raise Fault(INSTALL) from problem
    return serial
