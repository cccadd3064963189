"""Where a run may be coming in just now: loggers at this computer's ports, and files that were written to a short while ago."""

import time
from pathlib import Path

RECENT_S = 24 * 3600
ENDINGS = {".csv", ".txt", ".tsv", ".dat", ".log", ".asc"}


def ports():
    """The names of the ports at which something is plugged in ('COM3', '/dev/ttyUSB0'); none without the package pyserial."""
    try:
        from serial.tools.list_ports import comports
    except ImportError:
        return []
    return sorted(each.device for each in comports() if each.vid is not None)  # a port without a USB id is built in, and mostly empty


def growing_files(folder="."):
    """The names of the records in `folder` that were written to in the last day, the newest first."""
    files = [path for path in Path(folder).iterdir() if path.suffix.lower() in ENDINGS and path.is_file()]
    recent = {path.name: path.stat().st_mtime for path in files if time.time() - path.stat().st_mtime < RECENT_S}
    return sorted(recent, key=recent.get, reverse=True)
