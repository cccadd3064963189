"""How the preloaded process is spoken with: Unix sockets that keep messages whole, each one JSON object with open files beside it."""

import contextlib
import json
import os
import socket

DOOR, LONGEST, MOST_FILES = "preloaded.socket", 1 << 18, 8
KIND = socket.SOCK_SEQPACKET if hasattr(socket, "SOCK_SEQPACKET") else None


@contextlib.contextmanager
def door_in(state):
    """The path of the door in the folder `state`, in a form that is never too long for a socket (108 characters)."""
    folder = os.open(state, os.O_PATH | os.O_DIRECTORY | os.O_CLOEXEC)
    try:
        yield f"/proc/self/fd/{folder}/{DOOR}"
    finally:
        os.close(folder)


def pair():
    """Two ends of a line; one is to be given away."""
    return socket.socketpair(socket.AF_UNIX, KIND)


def say(line, message, files=()):
    """Send one message; OSError where nobody hears it."""
    socket.send_fds(line, [json.dumps(message).encode()], files)


def say_if_heard(line, message):
    with contextlib.suppress(OSError):
        say(line, message)


def hear(line):
    """(message, files) that came; (None, []) where the line has ended or speaks nonsense. BlockingIOError where nothing came yet."""
    try:
        said, files, _, _ = socket.recv_fds(line, LONGEST, MOST_FILES, socket.MSG_CMSG_CLOEXEC)
        message = json.loads(said) if said else None
    except BlockingIOError:
        raise
    except (OSError, ValueError):
        return None, []
    if not isinstance(message, dict):
        close(files)
        return None, []
    return message, files


def close(files):
    """Close files given by their number."""
    for each in files:
        os.close(each)
