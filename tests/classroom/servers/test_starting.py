"""A learner's server gets a port of its own also where another program takes the first one in the moment before the server does."""

import asyncio
import os
import socket
import subprocess
import sys
from types import SimpleNamespace

import pytest

pytest.importorskip("jupyterhub", reason="this environment lacks the packages for serving")

from kit.classroom.servers import starting
from tests.classroom.serving import needs_hub

pytestmark = [needs_hub, pytest.mark.skipif(os.name == "nt", reason="a class can't be served from Windows itself")]
# As a server does: it ends where the port is taken.
SERVER = "import socket, sys, time\nwith socket.create_server(('127.0.0.1', int(sys.argv[1]))) as line: time.sleep(600)"


class Spawner(starting.PortSpawner):
    """Starts `SERVER`, and in the first `taken` tries lets another program be quicker."""

    taken, processes, thieves = 0, (), ()

    async def launch(self):
        if len(self.processes) < self.taken:
            self.thieves = (*self.thieves, socket.create_server(("127.0.0.1", self.port)))
        process = subprocess.Popen([sys.executable, "-c", SERVER, str(self.port)], stderr=subprocess.DEVNULL)
        self.processes, self.pid = (*self.processes, process), process.pid
        return "127.0.0.1", self.port


@pytest.fixture
def spawner():
    made = Spawner(user=SimpleNamespace(name="07", url="/"))
    yield made
    for process in made.processes:
        process.kill()
        process.wait()
    for thief in made.thieves:
        thief.close()


def test_it_is_told_where_a_server_is_once_it_listens_there(spawner):
    where = asyncio.run(spawner.start())
    socket.create_connection(where).close()
    assert len(spawner.processes) == 1


def test_a_port_that_another_program_took_is_left_to_it(spawner):
    spawner.taken = 1
    where = asyncio.run(spawner.start())
    assert len(spawner.processes) == 2 and spawner.processes[1].poll() is None
    assert where[1] != spawner.thieves[0].getsockname()[1]


def test_a_server_that_ends_each_time_is_given_up_at_once(spawner):
    spawner.taken = starting.TRIES
    with pytest.raises(starting.NotStarted, match="The server of 07 ended 5 times"):
        asyncio.run(spawner.start())
    assert len(spawner.processes) == starting.TRIES


def test_who_listens_is_asked_of_the_system():
    """Another program at the port is not the server, which is still to end."""
    with socket.create_server(("127.0.0.1", 0)) as thief, subprocess.Popen([sys.executable, "-c", "import time; time.sleep(1)"]) as other:
        port = thief.getsockname()[1]
        assert asyncio.run(starting.listens(os.getpid(), port)) and not asyncio.run(starting.listens(other.pid, port))
