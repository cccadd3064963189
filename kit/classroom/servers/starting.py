"""Starting a learner's server on a port that is its own: one is found free a moment before the server takes it, and another program may be quicker."""

import asyncio

import psutil
from jupyterhub.spawner import SimpleLocalProcessSpawner
from jupyterhub.utils import random_port

TRIES, LOOK_S = 5, 0.05


class NotStarted(Exception):
    """A learner's server ended before it listened, each time it was started."""


class PortSpawner(SimpleLocalProcessSpawner):
    """Tells the hub where a server is when it listens there, and takes another port where it ended before. The hub itself would wait three
    minutes for it, and take whatever answers at that port for the learner's server."""

    async def start(self):
        for _ in range(TRIES):
            self.port = random_port()
            where = await self.launch()
            if await listens(self.pid, self.port):
                return where
            self.log.warning("The server of %s ended before it listened at port %s. Trying another.", self.user.name, self.port)
        raise NotStarted(f"The server of {self.user.name} ended {TRIES} times before it listened. Why is in its log.")

    async def launch(self):
        """Start the process; where it will be, as (address, port). Its id is `self.pid`."""
        return await super().start()


async def listens(pid, port):
    """Wait until the process `pid` listens at `port` itself; False where it ends before."""
    try:
        process = psutil.Process(pid)
        while process.status() != psutil.STATUS_ZOMBIE:
            # First the question that costs nothing, as all connections of the computer are looked through for the second.
            if await is_answered(port) and any(each.laddr.port == port for each in process.net_connections("tcp") if each.status == psutil.CONN_LISTEN):
                return True
            await asyncio.sleep(LOOK_S)
    except psutil.NoSuchProcess:
        pass
    return False


async def is_answered(port):
    try:
        _, line = await asyncio.open_connection("127.0.0.1", port)
    except OSError:
        return False
    line.close()
    return True
