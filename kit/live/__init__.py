"""A run while it is being recorded: a growing file, a serial line, and what was received."""

from kit.live.following import file_so_far, port_so_far
from kit.live.inbox import FOLDER
from kit.live.replaying import start_replay, start_writing
from kit.live.sources import growing_files, ports

__all__ = ["file_so_far", "FOLDER", "growing_files", "port_so_far", "ports", "start_replay", "start_writing"]
