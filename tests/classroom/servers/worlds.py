"""A small class to attack: two learners' folders, the hub's secrets, a process of the same user, and sockets that listen."""

import json
import os
import secrets
import socket
import subprocess
import sys
from contextlib import contextmanager
from pathlib import Path

TOP = Path(__file__).parents[3]


@contextmanager
def small_class(place):
    """The world that `tests/classroom/servers/attacks.py` is told of."""
    home, neighbour = place / "homes" / "learner01", place / "homes" / "learner02"
    for each in (home, neighbour):
        each.mkdir(parents=True)
    (neighbour / "secret").write_text("tickets")
    code = "import time; print(1, flush=True); time.sleep(600)"
    environment = {**os.environ, "SECRET": "token"}
    with socket.socket(socket.AF_UNIX) as abstract, socket.socket() as tcp:
        name = f"twin-vessels-{secrets.token_hex(8)}"
        abstract.bind("\0" + name)
        tcp.bind(("127.0.0.1", 0))
        for each in (abstract, tcp):
            each.listen()
        process = subprocess.Popen([sys.executable, "-c", code], cwd=neighbour, env=environment, stdout=subprocess.PIPE)
        try:
            process.stdout.readline()
            told = {"home": str(home), "neighbour": str(neighbour / "secret"), "process": process.pid}
            yield {**told, "abstract": f"@{name}", "port": tcp.getsockname()[1]}
        finally:
            process.kill()
            process.communicate()


def attacked(world, walls, names):
    """What came of each attack behind those walls: {name: "done" or the name of the error}."""
    words = [sys.executable, "-m", "tests.classroom.servers.attacks", json.dumps(world), walls, *names]
    done = subprocess.run(words, cwd=TOP, capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)
