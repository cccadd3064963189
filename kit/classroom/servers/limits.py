"""How much of the machine one learner may take. Beyond it Python raises an error in the learner's own kernel, and nobody else notices.

Memory, threads and the size of a file are limits of a process, which Linux keeps. A folder has no such limit for plain users: the
preloaded process looks how full it is (`used`) and lets no file grow further than what is left (`limit_files`).
"""

import os
import resource
from pathlib import Path

MIB = 1 << 20
MEMORY = 2048 * MIB  # of one process: of its data, and of all else that it may map beside what it was born with
FILE = 256 * MIB
FOLDER = 512 * MIB
ENTRY = MIB // 16  # what an entry of a folder counts at least, so that a million empty files aren't free
ALWAYS = MIB  # a file may grow to this even in a full folder: marks, answers and the notebook are kept
THREADS = 4096  # of all learners together, as they are one user to Linux
THREADS_EACH = 512  # a kernel has about 15; who has more than this for a few seconds is ended, or the others could start none
PROCESSES = 7  # of one learner: the server and six kernels


def limit():
    """Set the limits of this process, for good: it can lower them, but not raise them again."""
    mapped = int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
    set_limit(resource.RLIMIT_DATA, MEMORY)
    set_limit(resource.RLIMIT_AS, mapped + MEMORY)  # memory shared by a map counts here only
    set_limit(resource.RLIMIT_FSIZE, FILE)
    set_limit(resource.RLIMIT_NPROC, threads_of_this_user() + THREADS)
    set_limit(resource.RLIMIT_CORE, 0)
    Path("/proc/self/oom_score_adj").write_text("500")  # if the machine runs out of memory, no hub is ended before a kernel


def set_limit(which, value):
    _, hard = resource.getrlimit(which)
    value = value if hard == resource.RLIM_INFINITY else min(value, hard)
    resource.setrlimit(which, (value, value))


def threads_of_this_user():
    """How many threads run under this user's name, the teacher's own programs among them: the limit counts them all."""
    mine = (each for each in Path("/proc").iterdir() if each.name.isdigit())
    return sum(threads_in(each) for each in mine)


def threads_in(process):
    """How many threads a process of this user has, given as its folder in /proc; 0 for another's, or none."""
    try:
        return len(os.listdir(process / "task")) if process.stat().st_uid == os.getuid() else 0
    except OSError:  # it has ended meanwhile
        return 0


def limit_files(process, left):
    """Let no file of that process grow beyond what is `left` in its folder (bytes)."""
    _, hard = resource.prlimit(process, resource.RLIMIT_FSIZE)
    resource.prlimit(process, resource.RLIMIT_FSIZE, (min(max(left, ALWAYS), hard), hard))


def used(folder, enough):
    """Bytes on disk that a folder takes, links not followed; counts no further than `enough`."""
    total, waiting = 0, [folder]
    while waiting and total < enough:
        try:
            with os.scandir(waiting.pop()) as entries:
                for entry in entries:
                    total += max(entry.stat(follow_symlinks=False).st_blocks * 512, ENTRY)
                    if entry.is_dir(follow_symlinks=False):
                        waiting.append(entry.path)
                    if total >= enough:
                        break
        except OSError:  # removed while we looked, or a path too long to open
            total += ENTRY
    return total


def held(process):
    """Bytes in files that a process holds open and no folder names any more: removed ones, and files in memory."""
    total = 0
    for place in Path(f"/proc/{process}/fd").iterdir():
        try:
            file = place.stat()
        except OSError:
            continue
        total += file.st_blocks * 512 if file.st_nlink == 0 else 0
    return total
