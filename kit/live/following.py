"""A run while it is being recorded: what a logger wrote so far, from a file that grows or from a serial port.

Everything that arrives is in the folder `received` before it is read, so that neither an unplugged logger nor a full stop of the
program loses it. The run so far is what `read_run` makes of the whole lines received, with the same keywords.
"""

import time
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

import numpy as np

from kit.faults import IntakeFault
from kit.live.cleaning import without_damaged
from kit.live.filetail import FileTail
from kit.live.inbox import FOLDER, Inbox, complete, time_of_day
from kit.intake import look
from kit.records import Run
from kit.live.serialtail import SerialTail
from kit.intake.given import Raw
from kit.words import counted

LONGEST_PAUSE_S = 600.0  # a record that goes on after a longer pause is another record
REST = 4  # times as long as reading took is then left to the rest of the program


@dataclass(frozen=True, eq=False)
class SoFar:
    """What came so far. `run` is None until two readings of both vessels are there; `question` is what the newest lines leave open.

    `trouble`: why nothing comes at present, '' if all is well. `events`: what happened on the way, a sentence each. `paths`: the files that
    hold all that was received. `at`: the time of day at which something last came, '' before.
    """

    run: Run | None = None
    question: IntakeFault | None = None
    trouble: str = ""
    events: tuple = ()
    paths: tuple = ()
    at: str = ""


def file_so_far(path, *, every_s=1.0, pause=time.sleep, folder=".", **keywords):
    """Yield a `SoFar` at the start and whenever the file at `path` has grown; it may not be there yet, be cut, moved or written anew.

    Looks every `every_s` seconds, and ends once `pause(seconds)` gives something true. `keywords` are those of `read_run`; copies go to
    the folder `received` in `folder`. A Fault for a folder or a device, and when the disk refuses.
    """
    return _followed(FileTail(path), Inbox(Path(path).name, folder), (every_s, pause), keywords)


def port_so_far(port, *, baud=9600, columns=(), every_s=0.2, pause=time.sleep, folder=".", **keywords):
    """The same for a logger that sends lines of text to the serial port `port` ('COM3', '/dev/ttyUSB0') at `baud` bits a second.

    `columns` names the columns of a logger that sends neither names nor times: each line then gets the time it came. The logger may be
    unplugged and plugged in again. A Fault says so if the package pyserial is missing.
    """
    name = f"{Path(port).name}-{datetime.now():%Y-%m-%d-%H%M%S}.txt"
    return _followed(SerialTail(port, baud, columns), Inbox(name, folder), (every_s, pause), keywords)


def _followed(tail, inbox, pace, keywords):
    every_s, pause = pace
    record, so_far = _Record(inbox, keywords), None
    try:
        while True:
            start, arrival = time.perf_counter(), tail.arrived(inbox.part)
            inbox.add(arrival.data, arrival.anew)
            if so_far is None or arrival.data or arrival.trouble != so_far.trouble:
                so_far = record.after(arrival)
                yield so_far
            if pause(max(every_s, REST * (time.perf_counter() - start))):
                return
    finally:
        tail.close()


class _Record:
    """Which parts of an inbox make up the run so far: those from `first` on, as far as they are `judged` to belong together."""

    def __init__(self, inbox, keywords):
        self.inbox, self.keywords = inbox, keywords
        self.first = self.judged = 0
        self.damage = ()
        self.so_far = SoFar()

    def after(self, arrival):
        """The `SoFar` once an arrival is in the inbox."""
        old, at = self.so_far, time_of_day() if arrival.data else self.so_far.at
        self.so_far = replace(old, trouble=arrival.trouble, at=at, paths=tuple(self.inbox.paths))
        if arrival.data:
            self._judge() if self.judged and self.judged < len(self.inbox.parts) else self._take(self._look(self.first))
        return self.so_far

    def _look(self, first):
        """The `Reading` of the parts from `first` on. Where damaged lines are in the way, of the others, and `damage` says so."""
        data, self.damage = b"".join(map(complete, self.inbox.parts[first:])), ()
        reading = look(Raw(self.inbox.name.name, data), **self.keywords)
        if reading.question is None:
            return reading
        sound, dropped, example = without_damaged(data)
        cleaned = look(Raw(self.inbox.name.name, sound), **self.keywords) if dropped else reading
        if not dropped or reading.questions and not cleaned.run and len(cleaned.questions) >= len(reading.questions):
            return reading
        self.damage = (f"Left out {counted(dropped, 'damaged line')}, first {example!r}. The file in {FOLDER} holds them.",)
        return cleaned

    def _take(self, reading, *events):
        """Go on with this reading. A run once read stays while the newest lines leave something open."""
        self.judged = len(self.inbox.parts)
        events = (*(event for event in self.so_far.events if not event.startswith("Left out ")), *events, *self.damage)
        run = replace(reading.run, remarks=(*reading.run.remarks, *events)) if reading.run else self.so_far.run
        self.so_far = replace(self.so_far, run=run, question=reading.question, events=events)

    def _judge(self):
        """A new part goes on with the record if the two read as one, times running on; else it begins another. Too short to tell: wait."""
        newest = len(self.inbox.parts) - 1
        together, alone = self._look(self.first), self._look(newest)
        if self.so_far.run and together.run and goes_on(self.so_far.run, together.run):
            self._take(together, f"The logger began anew at {self.so_far.at} and its times run on: read as one record.")
        elif alone.run or not self.so_far.run:
            self.first = newest
            earlier = self.inbox.paths[newest - 1].name
            self._take(alone, f"The logger began a new record at {self.so_far.at}. The earlier one is kept in {FOLDER}/{earlier}.")


def goes_on(earlier, later):
    """Does `later` hold all readings of `earlier` unchanged, and more that follow without a long pause?"""
    one, other = earlier.readings, later.readings
    if len(other) <= len(one) or list(one) != list(other):
        return False
    same = np.array_equal(one.index, other.index[: len(one)]) and np.array_equal(one, other.iloc[: len(one)], equal_nan=True)
    return same and other.index[len(one)] - one.index[-1] <= LONGEST_PAUSE_S
