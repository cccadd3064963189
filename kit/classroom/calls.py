"""System calls that no lesson needs and that would reach past the fence or past a learner's limits: refused, for good.

- New processes: limits hold for one process, and one that starts others has as many times as much. Threads are free.
- Unix sockets by path: Landlock lets them pass, and a desktop's own services would start programs outside the fence.
- Other namespaces, other processes' limits and priorities, keys kept by the system: they belong to the user, so to everybody in class.

The kernel reads a small program (classic BPF) before each call: `linux/seccomp.h`, `linux/filter.h`.
"""

import ctypes
import errno
import os
import platform
import struct

from kit.classroom.fence import checked, NO_NEW_PRIVILEGES

SET_FILTER, FILTER, ASK_FILTER = 22, 2, 21  # prctl
ALLOW, REFUSE = 0x7FFF0000, 0x00050000
NUMBER, MACHINE, FIRST_ARGUMENT = 0, 4, 16  # places in `struct seccomp_data`
LOAD, EQUAL, AT_LEAST, ANY_OF, RETURN = 0x20, 0x15, 0x35, 0x45, 0x06
CLONE_THREAD, UNIX = 0x10000, 1
# The numbers of the calls (asm/unistd_64.h, asm-generic/unistd.h) and of the machine (linux/audit.h).
MACHINES = {
    "x86_64": {
        "machine": 0xC000003E, "fork": 57, "vfork": 58, "clone": 56, "clone3": 435, "socket": 41, "unshare": 272, "setns": 308,
        "io_uring_setup": 425, "setpriority": 141, "ioprio_set": 251, "add_key": 248, "request_key": 249, "keyctl": 250, "prlimit64": 302,
        "sched_setaffinity": 203, "sched_setscheduler": 144, "sched_setparam": 142, "sched_setattr": 314,
    },
    "aarch64": {
        "machine": 0xC00000B7, "clone": 220, "clone3": 435, "socket": 198, "unshare": 97, "setns": 268,
        "io_uring_setup": 425, "setpriority": 140, "ioprio_set": 30, "add_key": 217, "request_key": 218, "keyctl": 219, "prlimit64": 261,
        "sched_setaffinity": 122, "sched_setscheduler": 119, "sched_setparam": 118, "sched_setattr": 274,
    },
}  # fmt: skip
NEVER = ("fork", "vfork", "unshare", "setns", "io_uring_setup", "setpriority", "ioprio_set", "add_key", "request_key", "keyctl")
ONLY_FOR_ITSELF = ("prlimit64", "sched_setaffinity", "sched_setparam", "sched_setattr")  # with 0 for whose it is
QUIETLY = "sched_setscheduler"  # not done, and no error: ZeroMQ calls it for each of its threads and ends the process where it fails
ABOVE_ALL_CALLS = 0x40000000  # a second set of numbers on x86-64


def missing_filter():
    """None where calls can be refused; else a sentence with the reason."""
    if platform.machine() not in MACHINES:
        return f"To keep learners apart, the kit knows {' and '.join(MACHINES)}; this processor is {platform.machine() or 'unknown'}."
    if ctypes.CDLL(None).prctl(ASK_FILTER, 0, 0, 0, 0) < 0:
        return "To keep learners apart, Linux must be able to refuse calls (seccomp), and this one can't."
    return None


def refuse_calls(machine=None):
    """Refuse them to this process and all it starts. A refused call fails with EPERM, in Python as PermissionError."""
    steps = program(MACHINES[machine or platform.machine()])
    libc = ctypes.CDLL(None, use_errno=True)
    text = ctypes.create_string_buffer(b"".join(struct.pack("HBBI", *step) for step in steps))
    told = struct.pack("HxxxxxxP", len(steps), ctypes.addressof(text))
    checked(libc.prctl(NO_NEW_PRIVILEGES, 1, 0, 0, 0), "calls")
    checked(libc.prctl(SET_FILTER, FILTER, told, 0, 0), "calls")


def program(numbers):
    """The steps (code, jump if so, jump if not, value) that the kernel goes through."""
    refuse, pass_over = (RETURN, 0, 0, REFUSE | errno.EPERM), (RETURN, 0, 0, REFUSE)
    steps = [(LOAD, 0, 0, MACHINE), (EQUAL, 1, 0, numbers["machine"]), refuse]
    steps += [(LOAD, 0, 0, NUMBER), (AT_LEAST, 0, 1, ABOVE_ALL_CALLS), refuse]
    for name in NEVER:
        if name in numbers:
            steps += [(LOAD, 0, 0, NUMBER), (EQUAL, 0, 1, numbers[name]), refuse]
    argument = {name: (EQUAL, 1, 0, 0) for name in (*ONLY_FOR_ITSELF, QUIETLY)}
    argument |= {"clone": (ANY_OF, 1, 0, CLONE_THREAD), "socket": (EQUAL, 0, 1, UNIX)}
    for name, test in argument.items():
        steps += [(LOAD, 0, 0, NUMBER), (EQUAL, 0, 3, numbers[name]), (LOAD, 0, 0, FIRST_ARGUMENT), test]
        steps += [pass_over if name == QUIETLY else refuse]
    # Not to be looked into: as if this kernel didn't have it, so that threads are started by `clone`.
    steps += [(LOAD, 0, 0, NUMBER), (EQUAL, 0, 1, numbers["clone3"]), (RETURN, 0, 0, REFUSE | errno.ENOSYS)]
    return [*steps, (RETURN, 0, 0, ALLOW)]


def drop_powers():
    """Give up what root may do beyond its own files; nothing changes for anybody else."""
    if os.geteuid() == 0:
        libc = ctypes.CDLL(None, use_errno=True)
        checked(libc.capset(struct.pack("Ii", 0x20080522, 0), bytes(24)), "powers")
