"""A run while it is being recorded: a growing file, a serial line, and what was received."""

from kit.live.following import file_so_far, port_so_far
from kit.live.inbox import FOLDER
from kit.live.replaying import start_replay

__all__ = ["file_so_far", "FOLDER", "port_so_far", "start_replay"]
