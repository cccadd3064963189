"""System calls that no lesson needs and that would reach past the fence or past a learner's limits: refused, for good.

- New processes: limits hold for one process, and one that starts others has as many times as much. Threads are free.
- Unix sockets by path: Landlock lets them pass, and a desktop's own services would start programs outside the fence.
- Rights, times and marks of files, and watching folders: Landlock lets that pass, too, and all files of a class are one user's.
- Memory, counters and messages of System V, and POSIX queues: no limit of a process counts them, they stay when it has ended, and any process
  of the same user may join in.
- Other namespaces, other processes' limits and priorities, keys kept by the system: they belong to the user, so to everybody in class.

The kernel reads a small program (classic BPF) before each call: `linux/seccomp.h`, `linux/filter.h`.
"""

import ctypes
import errno
import os
import platform
import struct

from kit.classroom.servers.fence import checked, NO_NEW_PRIVILEGES

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
        "chmod": 90, "fchmod": 91, "fchmodat": 268, "chown": 92, "fchown": 93, "lchown": 94, "fchownat": 260,
        "utime": 132, "utimes": 235, "futimesat": 261, "utimensat": 280,
        "setxattr": 188, "lsetxattr": 189, "fsetxattr": 190, "removexattr": 197, "lremovexattr": 198, "fremovexattr": 199,
        "inotify_init": 253, "inotify_init1": 294, "fanotify_init": 300,
        "shmget": 29, "shmat": 30, "shmctl": 31, "semget": 64, "semop": 65, "semctl": 66, "semtimedop": 220,
        "msgget": 68, "msgsnd": 69, "msgrcv": 70, "msgctl": 71, "mq_open": 240, "mq_unlink": 241,
    },
    "aarch64": {
        "machine": 0xC00000B7, "clone": 220, "clone3": 435, "socket": 198, "unshare": 97, "setns": 268,
        "io_uring_setup": 425, "setpriority": 140, "ioprio_set": 30, "add_key": 217, "request_key": 218, "keyctl": 219, "prlimit64": 261,
        "sched_setaffinity": 122, "sched_setscheduler": 119, "sched_setparam": 118, "sched_setattr": 274,
        "fchmod": 52, "fchmodat": 53, "fchown": 55, "fchownat": 54, "utimensat": 88,
        "setxattr": 5, "lsetxattr": 6, "fsetxattr": 7, "removexattr": 14, "lremovexattr": 15, "fremovexattr": 16,
        "inotify_init1": 26, "fanotify_init": 262,
        "shmget": 194, "shmat": 196, "shmctl": 195, "semget": 190, "semop": 193, "semctl": 191, "semtimedop": 192,
        "msgget": 186, "msgsnd": 189, "msgrcv": 188, "msgctl": 187, "mq_open": 180, "mq_unlink": 181,
    },
}  # fmt: skip
NEVER = (
    "fork", "vfork", "unshare", "setns", "io_uring_setup", "setpriority", "ioprio_set", "add_key", "request_key", "keyctl",
    "chown", "fchown", "lchown", "fchownat", "setxattr", "lsetxattr", "fsetxattr", "removexattr", "lremovexattr", "fremovexattr",
    "inotify_init", "inotify_init1", "fanotify_init", "shmget", "shmat", "shmctl", "semget", "semop", "semctl", "semtimedop",
    "msgget", "msgsnd", "msgrcv", "msgctl", "mq_open", "mq_unlink",
)  # fmt: skip
ONLY_FOR_ITSELF = ("prlimit64", "sched_setaffinity", "sched_setparam", "sched_setattr")  # with 0 for whose it is
# Not done, and no error: copying a file ends with these, and ZeroMQ ends its process where it can't set the usual schedule of a thread.
QUIETLY = ("chmod", "fchmod", "fchmodat", "utime", "utimes", "futimesat", "utimensat")
QUIETLY_FOR_OTHERS = "sched_setscheduler"
UNKNOWN = 452  # from here on, calls that came after Linux 6.5, and a second set of numbers on x86-64


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
    refuse, pass_over, absent = ((RETURN, 0, 0, REFUSE | error) for error in (errno.EPERM, 0, errno.ENOSYS))
    steps = [(LOAD, 0, 0, MACHINE), (EQUAL, 1, 0, numbers["machine"]), refuse]
    # What is not known here, and what can't be looked into: as if this Linux didn't have it. Threads are then started by `clone`.
    steps += [(LOAD, 0, 0, NUMBER), (AT_LEAST, 0, 1, UNKNOWN), absent, (EQUAL, 0, 1, numbers["clone3"]), absent]
    for names, answer in ((NEVER, refuse), (QUIETLY, pass_over)):
        for name in filter(numbers.get, names):
            steps += [(EQUAL, 0, 1, numbers[name]), answer]
    argument = {name: (EQUAL, 1, 0, 0) for name in (*ONLY_FOR_ITSELF, QUIETLY_FOR_OTHERS)}
    argument |= {"clone": (ANY_OF, 1, 0, CLONE_THREAD), "socket": (EQUAL, 0, 1, UNIX)}
    for name, test in argument.items():
        steps += [(LOAD, 0, 0, NUMBER), (EQUAL, 0, 3, numbers[name]), (LOAD, 0, 0, FIRST_ARGUMENT), test]
        steps += [pass_over if name == QUIETLY_FOR_OTHERS else refuse]
    return [*steps, (RETURN, 0, 0, ALLOW)]


def drop_powers():
    """Give up what root may do beyond its own files; nothing changes for anybody else."""
    if os.geteuid() == 0:
        libc = ctypes.CDLL(None, use_errno=True)
        checked(libc.capset(struct.pack("Ii", 0x20080522, 0), bytes(24)), "powers")
