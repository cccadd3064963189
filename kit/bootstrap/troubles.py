"""What can go wrong outside the kit, as sentences that say what to do."""

import errno
import sys
from functools import wraps
from pathlib import Path

NO_ROOM = {errno.ENOSPC, errno.EDQUOT}
NOT_ALLOWED = {errno.EACCES, errno.EPERM, errno.EROFS}
STOPPED = 130


def in_plain_words(main):
    """`main`, ending with a sentence instead of a traceback when the disk, a folder or the person says no."""

    @wraps(main)
    def plain(words):
        for stream in (sys.stdout, sys.stderr):
            stream.reconfigure(errors="replace")  # a folder's name may hold letters that this terminal lacks
        try:
            return main(words)
        except KeyboardInterrupt:
            print("\nStopped. Type the same command again to go on.", file=sys.stderr)
            return STOPPED
        except OSError as problem:
            print(sentence(problem), file=sys.stderr)
            return 1

    return plain


def sentence(problem):
    """An OSError as a sentence."""
    if problem.errno in NO_ROOM:
        return "This disk is full. Make room on it, then type the same command again."
    if problem.errno in NOT_ALLOWED:
        place = Path(problem.filename or ".").parent
        return f"The kit may not write in {place}. Move its folder to a place that is yours, such as your desktop, and start it there."
    return f"The computer refused a step ({problem}). Put that right if you can, then type the same command again."
