"""A run while it is being recorded."""

from kit.widgets.live.following import follow, follow_serial

__all__ = ["follow", "follow_serial"]
