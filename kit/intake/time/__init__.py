"""From stamps to seconds: clocks, the order of lines, offsets between loggers."""

from kit.intake.time.clocks import read_clock, says_time, stamps_in, tells_time
from kit.intake.time.offsets import offset_between
from kit.intake.time.stampcolumn import moment

__all__ = ["moment", "offset_between", "read_clock", "says_time", "stamps_in", "tells_time"]
