"""A logger to watch: a bundled run replayed, and followed like any other growing file."""

from kit.live import start_replay
from kit.widgets.live import follow


def replay(name, *, times=10, over_min=5):
    """Follow the bundled run `name` while it is written to a file beside the notebook, `times` as fast as it was recorded.

    The view is that of `follow`. A Fault for an unknown run, or a speed that can't be.
    """
    return follow(start_replay(name, times), over_min=over_min)
