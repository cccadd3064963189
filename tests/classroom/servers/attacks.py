"""What a learner's code may try against others, tried for real: `python -m tests.classroom.servers.attacks WORLD WALLS` prints what came of each.

WORLD is JSON: the learner's `home`, a `neighbour` file, a `process` of the same user with its working folder beside, an `abstract` socket
and a `port` that listen. WALLS names what stands between: "fence", "calls", "limits", "powers", or nothing.
"""

import ctypes
import json
import mmap
import os
import resource
import shutil
import socket
import subprocess
import sys
import threading
from pathlib import Path

from kit.bootstrap.places import KIT
from kit.classroom.servers import calls, fence, limits


def out_of_the_house(world, how):
    mine = Path(world["home"], f"mine-{how.__name__}")
    mine.write_text("x")
    how(mine, Path(world["neighbour"]).with_name(f"from-{how.__name__}"))


def connect(family, address):
    with socket.socket(family) as line:
        line.settimeout(5)
        line.connect(address)


def call(name, *arguments):
    numbers = {**calls.MACHINES[os.uname().machine], "bpf": 0}
    libc = ctypes.CDLL(None, use_errno=True)
    calls.checked(libc.syscall(numbers[name], *arguments), name)


def shell(*words):
    subprocess.run(words, check=True, capture_output=True)


def through_a_link(world):
    link = Path(world["home"], "link")
    link.symlink_to(world["neighbour"])
    return link.read_text()


def work_at_home(world):
    folder = Path(world["home"], "my-work", "marks")
    folder.mkdir(parents=True)
    (folder / "half").write_text("marks")
    os.replace(folder / "half", folder / "whole")
    return (folder / "whole").read_text()


def thread(world):
    ran = []
    one = threading.Thread(target=ran.append, args=(1,))
    one.start()
    one.join()
    return ran[0]


def schedule_another(world):
    os.sched_setscheduler(world["process"], os.SCHED_BATCH, os.sched_param(0))
    if os.sched_getscheduler(world["process"]) != os.SCHED_BATCH:
        raise PermissionError("said to be done, but nothing has changed")


def changes(attempt, world, seen):
    """An attempt that is said to be done has been, too."""
    before = seen(os.stat(world["neighbour"]))
    attempt()
    if seen(os.stat(world["neighbour"])) == before:
        raise PermissionError("said to be done, but nothing has changed")


def change_rights(world, way):
    mode = os.stat(world["neighbour"]).st_mode ^ 0o044
    libc = ctypes.CDLL(None, use_errno=True)
    path = world["neighbour"].encode()
    attempts = {"chmod": lambda: os.chmod(path, mode), "fchmodat2": lambda: calls.checked(libc.syscall(452, -100, path, mode, 0), "fchmodat2")}
    changes(attempts[way], world, lambda told: told.st_mode)


def watch(world):
    libc = ctypes.CDLL(None, use_errno=True)
    line = calls.checked(libc.inotify_init1(0), "watch")
    calls.checked(libc.inotify_add_watch(line, str(Path(world["neighbour"]).parent).encode(), 0x100), "watch")


def outlive(make, remove, *arguments):
    """Make what stays when its process has ended; it is taken away again here."""
    libc = ctypes.CDLL(None, use_errno=True)
    made = calls.checked(getattr(libc, make)(*arguments), make)
    getattr(libc, remove)(made, 0, 0, None) if remove == "semctl" else getattr(libc, remove)(made, 0, None)


def open_queue(world):
    libc, name = ctypes.CDLL("librt.so.1", use_errno=True), f"/twin-vessels-{os.getpid()}".encode()
    calls.checked(libc.mq_open(name, os.O_RDWR | os.O_CREAT, 0o600, None), "mq_open")
    libc.mq_unlink(name)


def many_threads(world):
    """Here as a plain user, for root has no such limit."""
    if os.getuid() == 0:
        os.setuid(65534)
    limits.set_limit(resource.RLIMIT_NPROC, limits.threads_of_this_user() + 20)
    end = threading.Event()
    try:
        for _ in range(2000):
            threading.Thread(target=end.wait).start()
    finally:
        end.set()


def fill(world):
    with open(Path(world["home"], "big"), "wb") as file:
        file.truncate(limits.FILE + 1)


ATTEMPTS = {
    "read a neighbour's file": lambda w: Path(w["neighbour"]).read_text(),
    "read it through a link": through_a_link,
    "list a neighbour's folder": lambda w: os.listdir(Path(w["neighbour"]).parent),
    "write a neighbour's file": lambda w: os.close(os.open(w["neighbour"], os.O_WRONLY)),
    "change the kit's code": lambda w: os.close(os.open(KIT / "__init__.py", os.O_WRONLY)),
    "read it by another program": lambda w: shell("cat", w["neighbour"]),
    "read it in a namespace of one's own": lambda w: shell("unshare", "-Urm", "cat", w["neighbour"]),
    "move a file out": lambda w: out_of_the_house(w, os.rename),
    "link a file out": lambda w: out_of_the_house(w, os.link),
    "read by another's working folder": lambda w: Path(f"/proc/{w['process']}/cwd", Path(w["neighbour"]).name).read_text(),
    "read another's memory": lambda w: os.close(os.open(f"/proc/{w['process']}/mem", os.O_RDONLY)),
    "read another's environment": lambda w: Path(f"/proc/{w['process']}/environ").read_bytes(),
    "read another's command line": lambda w: Path(f"/proc/{w['process']}/cmdline").read_bytes(),
    "list the processes": lambda w: os.listdir("/proc"),
    "signal another": lambda w: os.kill(w["process"], 0),
    "reach an abstract socket": lambda w: connect(socket.AF_UNIX, w["abstract"].replace("@", "\0")),
    "reach a port": lambda w: connect(socket.AF_INET, ("127.0.0.1", w["port"])),
    "work at home": work_at_home,
    "throw away": lambda w: Path("/dev/null").write_text("x"),
    "start another program": lambda w: shell("true"),
    "fork": lambda w: os.fork() or os._exit(0),
    "open a Unix socket": lambda w: socket.socket(socket.AF_UNIX).close(),
    "limit another's processor": lambda w: resource.prlimit(w["process"], resource.RLIMIT_CPU, (-1, -1)),
    "slow another down": lambda w: os.setpriority(os.PRIO_PROCESS, w["process"], 0),
    "move another to one processor": lambda w: os.sched_setaffinity(w["process"], os.sched_getaffinity(w["process"])),
    "schedule another": schedule_another,
    "change another file's rights": lambda w: change_rights(w, "chmod"),
    "change them by a newer call": lambda w: change_rights(w, "fchmodat2"),
    "change another file's time": lambda w: changes(lambda: os.utime(w["neighbour"], (1, 1)), w, lambda told: told.st_mtime),
    "give another file away": lambda w: os.chown(w["neighbour"], os.getuid(), os.getgid()),
    "mark another file": lambda w: os.setxattr(w["neighbour"], "user.mark", b"x"),
    "watch another folder": watch,
    "copy with rights and time": lambda w: shutil.copy2(KIT / "__init__.py", w["home"]),
    "make a namespace": lambda w: call("unshare", 0),
    "ask for the keys": lambda w: call("keyctl", 0, -3, 1),
    "open a ring": lambda w: call("io_uring_setup", 1, bytes(120)),
    "keep memory beyond its end": lambda w: outlive("shmget", "shmctl", 0, ctypes.c_size_t(4096), 0o1600),
    "keep counters beyond its end": lambda w: outlive("semget", "semctl", 0, 1, 0o1600),
    "keep messages beyond its end": lambda w: outlive("msgget", "msgctl", 0, 0o1600),
    "open a queue of messages": open_queue,
    "pair of sockets": lambda w: [each.close() for each in socket.socketpair()],
    "thread": thread,
    "own limits": lambda w: resource.getrlimit(resource.RLIMIT_CPU),
    "allocate 3 GB": lambda w: len(bytearray(3 << 30)),
    "map 3 GB that are shared": lambda w: mmap.mmap(-1, 3 << 30).close(),
    "write a big file": fill,
    "raise a limit": lambda w: resource.setrlimit(resource.RLIMIT_FSIZE, (limits.FILE + 1, limits.FILE + 1)),
    "start any number of threads": many_threads,
}


def shut(walls, home):
    if "limits" in walls:
        limits.limit()
    if "fence" in walls:
        fence.fence(home, fence.readable_by_all(), connects=False)
    if "calls" in walls:
        calls.refuse_calls()
    if "powers" in walls:
        calls.drop_powers()


def outcome(attempt, world):
    try:
        attempt(world)
    except BaseException as fault:
        return type(fault).__name__
    return "done"


if __name__ == "__main__":
    given = json.loads(sys.argv[1])
    shut(sys.argv[2].split("+"), given["home"])
    print(json.dumps({name: outcome(attempt, given) for name, attempt in ATTEMPTS.items() if name in sys.argv[3:]}))
