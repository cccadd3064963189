"""The fence: from then on this process, and all it starts, writes in one folder only, reads only that and what every learner may
read, and signals nobody but its own kind.

Linux has it as Landlock: any user may fence themselves, without root and for good. Numbers and names are those of `linux/landlock.h`.
"""

import ctypes
import os
import struct
import sys
from pathlib import Path

from kit.bootstrap.places import DATASETS, KIT, LESSONS, open_course

NEEDED = 6  # the version (ABI) of Landlock that keeps signals in, too; Linux 6.12
CREATE_RULESET, ADD_RULE, RESTRICT_SELF = 444, 445, 446  # system calls; the same on every kind of machine
ASK_VERSION, PATH_BENEATH, NO_NEW_PRIVILEGES = 1, 1, 38

EXECUTE, WRITE_FILE, READ_FILE, READ_DIR = 1 << 0, 1 << 1, 1 << 2, 1 << 3
MAKE_CHAR, MAKE_BLOCK, TRUNCATE, IOCTL_DEV = 1 << 6, 1 << 11, 1 << 14, 1 << 15
EVERYTHING = (1 << 16) - 1  # all that may be done to files and folders
READ = EXECUTE | READ_FILE | READ_DIR
OWN = EVERYTHING & ~(MAKE_CHAR | MAKE_BLOCK)
DEVICE = READ_FILE | WRITE_FILE | TRUNCATE | IOCTL_DEV
OF_FILES = EXECUTE | DEVICE  # the rights that a single file can have
CONNECT_TCP = 1 << 1
ABSTRACT_SOCKETS, SIGNALS = 1 << 0, 1 << 1

SYSTEM = ("/usr", "/bin", "/lib", "/lib64", "/etc", "/sys/devices/system/cpu")
OF_ITSELF = ("/proc/self", "/proc/stat", "/proc/meminfo", "/proc/cpuinfo")  # not /proc: it shows what others run
DEVICES = ("/dev/null", "/dev/zero", "/dev/full", "/dev/random", "/dev/urandom", "/dev/tty")


def missing_fence():
    """None where a process can be fenced; else a sentence with the reason."""
    if not sys.platform.startswith("linux"):
        return "Only Linux can keep learners' folders apart, and this computer runs something else."
    version = ctypes.CDLL(None).syscall(CREATE_RULESET, None, 0, ASK_VERSION)
    if version >= NEEDED:
        return None
    found = "has no Landlock, or it is switched off" if version < 1 else f"has version {version} of Landlock"
    needed = f"Linux 6.12 or newer with Landlock version {NEEDED} is needed"
    return f"To keep learners' folders apart, {needed}; Linux {os.uname().release} here {found}."


def readable_by_all():
    """The folders that every learner may read: this Python, the system, the kit, lessons and data, and the course that is open."""
    python = {sys.prefix, sys.base_prefix, sys.exec_prefix, *(each for each in sys.path if each.endswith("site-packages"))}
    course = open_course()
    return [*SYSTEM, *sorted(python), str(KIT), str(LESSONS), str(DATASETS), *([str(course)] if course else [])]


def fence(home, readable, connects=True):
    """Shut this process into the folder `home`, for good; it may also read the folders in `readable`. Without `connects` it can't open a
    TCP connection, either.

    Raises OSError with the path where the system refuses, and then nothing has been shut.
    """
    libc = ctypes.CDLL(None, use_errno=True)
    handled = struct.pack("QQQ", EVERYTHING, 0 if connects else CONNECT_TCP, ABSTRACT_SOCKETS | SIGNALS)
    rules = checked(libc.syscall(CREATE_RULESET, handled, len(handled), 0), "no fence")
    try:
        for path, rights in [*((each, READ) for each in (*readable, *OF_ITSELF)), *((each, DEVICE) for each in DEVICES), (home, OWN)]:
            if Path(path).exists():
                allow(libc, rules, path, rights)
        checked(libc.prctl(NO_NEW_PRIVILEGES, 1, 0, 0, 0), "no fence")
        checked(libc.syscall(RESTRICT_SELF, rules, 0), "no fence")
    finally:
        os.close(rules)


def allow(libc, rules, path, rights):
    """Add to the rules that `path`, and all below it, may be used with these rights."""
    place = os.open(path, os.O_PATH | os.O_CLOEXEC)
    try:
        rights = rights if Path(path).is_dir() else rights & OF_FILES
        checked(libc.syscall(ADD_RULE, rules, PATH_BENEATH, struct.pack("=Qi", rights, place), 0), path)
    finally:
        os.close(place)


def checked(result, what):
    """The result of a system call; OSError, naming `what`, where it failed."""
    if result < 0:
        number = ctypes.get_errno()
        raise OSError(number, os.strerror(number), str(what))
    return result
