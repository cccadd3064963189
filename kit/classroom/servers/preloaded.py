"""The preloaded process: `python -m kit.classroom.servers.preloaded STATE` loads all, then forks one process for each request.

Who asks? At the door, a socket in the folder STATE, the hub: a process of the same user that is not fenced, which the kernel tells. A
learner's server is born with a line of its own, and what it asks for lands in its own folder, whatever it says. Kernels have no line.
A request comes with four files: the asker's line for this child, two for its words, and a pipe that the asker holds. On that line the
child's end is told and signals for it are taken; when it closes, a kernel is ended. Servers outlive the hub that asked for them.
"""

import contextlib
import functools
import os
import resource
import selectors
import signal
import socket
import struct
import sys
import time
from dataclasses import dataclass
from pathlib import Path

from kit.classroom.servers.child import become
from kit.classroom.servers.limits import FOLDER, held, limit_files, PROCESSES, THREADS_EACH, threads_in, used
from kit.classroom.servers.preloading import preload
from kit.classroom.servers.talk import close, door_in, hear, KIND, pair, say_if_heard

LOOK_S = 5.0
TOO_MANY = (
    f"No more than {PROCESSES - 1} kernels can run at once. Close a lesson: right-click it in the list of running kernels, then Shut Down."
)
FULL = "The computer that serves the class has no room for another process now. Tell your teacher, and try again in a minute."


@dataclass
class Child:
    """A process forked from here: in whose folder it works, the line of the one who asked, and whether it is a server."""

    home: str
    line: socket.socket
    is_server: bool


class Preloaded:
    """Answers all lines in turn; never waits for one of them."""

    def __init__(self, door):
        self.children, self.lines = {}, selectors.DefaultSelector()
        self.ended, self.wake = socket.socketpair()
        for each in (self.ended, self.wake):
            each.setblocking(False)
        signal.set_wakeup_fd(self.wake.fileno())
        signal.signal(signal.SIGCHLD, lambda *_: None)
        self.listen(self.ended, self.reap)
        self.listen(door, self.let_in)

    def listen(self, line, answer):
        line.setblocking(False)
        self.lines.register(line, selectors.EVENT_READ, answer)

    def drop(self, line):
        if line.fileno() >= 0:
            self.lines.unregister(line)
            line.close()

    def serve(self):
        due = 0.0
        while True:
            for key, _ in self.lines.select(LOOK_S):
                if key.fileobj.fileno() >= 0:  # it may have been dropped a moment ago
                    with contextlib.suppress(BlockingIOError):
                        key.data(key.fileobj)
            if time.monotonic() >= due:
                self.look_round()
                due = time.monotonic() + LOOK_S

    def let_in(self, door):
        line, _ = door.accept()
        if may_ask(line):
            self.listen(line, functools.partial(self.asked, home=None))
        else:
            line.close()

    def asked(self, line, home):
        """Fork for one who asks. `home`: a learner's folder, whose server it is; None: the hub, which names one."""
        request, files = hear(line)
        if request is None:
            self.drop(line)
        elif len(files) != 4 or not {"module", "argv", "cwd", "env"} <= set(request) or not (home or request.get("home")):
            close(files)
        else:
            own, whose = socket.socket(fileno=files[0]), home or request["home"]
            if sum(child.home == whose for child in self.children.values()) >= PROCESSES:
                say_if_heard(own, {"refused": TOO_MANY})
                own.close()
            else:
                self.fork(request, whose, own, files[1:], is_server=home is None)
            close(files[1:])

    def fork(self, request, home, own, words, is_server):
        mine, theirs = pair() if is_server else (None, None)
        try:
            pid = os.fork()
        except OSError:
            say_if_heard(own, {"refused": FULL})
            for line in filter(None, (own, mine, theirs)):
                line.close()
            return
        if pid == 0:
            self.forget(own, mine)
            become(request, home, words, asking=theirs)
        self.children[pid] = Child(home, own, is_server)
        self.listen(own, functools.partial(self.told, pid=pid))
        if is_server:
            theirs.close()
            self.listen(mine, functools.partial(self.asked, home=home))
        say_if_heard(own, {"pid": pid})

    def forget(self, *more):
        """In a child: close all lines, which are others'."""
        signal.set_wakeup_fd(-1)
        for line in [*(key.fileobj for key in self.lines.get_map().values()), self.wake, *filter(None, more)]:
            line.close()
        self.lines.close()

    def told(self, line, pid):
        """Signal a child for the one who asked for it: fenced, they can't do so themselves."""
        message, files = hear(line)
        close(files)
        number = signal.SIGKILL if message is None else message.get("signal")
        if message is None:
            self.drop(line)
        child = self.children.get(pid)
        if child and isinstance(number, int) and not (message is None and child.is_server):
            os.kill(pid, number)

    def reap(self, ended):
        """Take note of those that have ended, and tell who asked for them."""
        ended.recv(4096)
        while self.children:
            pid, status = os.waitpid(-1, os.WNOHANG)
            if not pid:
                break
            child = self.children.pop(pid)
            if child.line.fileno() >= 0:
                say_if_heard(child.line, {"exit": os.waitstatus_to_exitcode(status)})
                self.drop(child.line)

    def look_round(self):
        """Limit the files of each learner to what is left in the folder. Who goes far beyond, or has any number of threads, loses the kernels,
        not the work."""
        for home in {child.home for child in self.children.values()}:
            members = [pid for pid, child in self.children.items() if child.home == home]
            with contextlib.suppress(OSError):  # one has ended a moment ago: looked at again soon
                left = FOLDER - used(home, 2 * FOLDER) - sum(map(held, members))
                for pid in members:
                    limit_files(pid, left)
                    beyond = left < -FOLDER // 2 or threads_in(Path("/proc", str(pid))) > THREADS_EACH
                    if beyond and not self.children[pid].is_server:
                        os.kill(pid, signal.SIGKILL)


def may_ask(line):
    """Is it a process of this user, and not fenced? The kernel tells who is at the other end, and a filter of calls never goes away."""
    pid, user, _ = struct.unpack("3i", line.getsockopt(socket.SOL_SOCKET, socket.SO_PEERCRED, 12))
    try:
        return user == os.getuid() and filters_of(pid) <= filters_of("self")
    except OSError:  # it has ended already
        return False


def filters_of(process):
    """How many filters of system calls a process has, as `/proc/PID/status` tells (since Linux 5.9)."""
    lines = Path(f"/proc/{process}/status").read_text().splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith("Seccomp_filters:"))


def main(state):
    """Load all, open the door, fork for ever."""
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))
    os.umask(0o077)
    _, most = resource.getrlimit(resource.RLIMIT_NOFILE)
    resource.setrlimit(resource.RLIMIT_NOFILE, (most, most))  # two lines for each child
    began = time.monotonic()
    preload()
    with socket.socket(socket.AF_UNIX, KIND) as door, door_in(state) as path:
        Path(path).unlink(missing_ok=True)
        door.bind(path)
        door.listen(64)
        print(f"Preloaded in {time.monotonic() - began:.1f} s.", flush=True)
        Preloaded(door).serve()


if __name__ == "__main__":
    main(sys.argv[1])
