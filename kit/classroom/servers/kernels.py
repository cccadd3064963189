"""Kernels of a fenced server: forked from the preloaded process, too."""

import asyncio
import os
import signal
import socket
import sys
import time
from importlib.metadata import EntryPoint

from jupyter_client.provisioning import KernelProvisionerFactory, LocalProvisioner
from tornado.web import HTTPError

from kit.classroom.servers.asking import Forked, NotForked, SILENT
from kit.classroom.servers.child import LINE

NAME, TRIES, LOOK_S, MOST_S = "twin-vessels", 5, 0.02, 60.0
ANEW = "This page's Python can't start. Reload the page, and it starts anew. Your work is kept."


class ForkedProvisioner(LocalProvisioner):
    """Starts a kernel by asking on the line that the server was born with; interrupts and ends it by the same way."""

    async def pre_launch(self, **kwargs):
        self.parent.cache_ports = False  # or it would not know that other ports may be taken
        return await super().pre_launch(**kwargs)

    async def launch_kernel(self, cmd, **kwargs):
        """Start it, and once it listens say where; where it ended before, another program had taken a port of it, and it gets others."""
        for _ in range(TRIES):
            await self.fork(cmd, **kwargs)
            if await self.listens():
                break
            self.parent.cleanup_random_ports()
            self.parent.write_connection_file()
            self.connection_info = self.parent.get_connection_info()
        return self.connection_info

    async def listens(self):
        """Wait until the kernel listens at the last of its ports, for a minute at most; False where it ends before."""
        until = time.monotonic() + MOST_S
        while self.process.poll() is None and time.monotonic() < until:
            try:
                _, line = await asyncio.open_connection(self.parent.ip, self.parent.hb_port)
            except OSError:
                await asyncio.sleep(LOOK_S)
            else:
                line.close()
                break
        return self.process.poll() is None

    async def fork(self, cmd, **kwargs):
        _, module, *argv = cmd[cmd.index("-m") :]
        request = {"module": module, "argv": argv, "cwd": kwargs.get("cwd") or os.getcwd(), "env": kwargs.get("env") or dict(os.environ)}
        try:
            with socket.socket(fileno=os.dup(int(os.environ[LINE]))) as asking:
                self.process = await asyncio.to_thread(Forked, asking, request, sys.stderr.fileno())
        except NotForked as problem:
            if str(problem) != SILENT:
                raise HTTPError(503, str(problem)) from problem  # whose words the page shows
            print(SILENT, "So this server ends, to be started anew.", file=sys.stderr, flush=True)
            end_soon()
            raise HTTPError(503, ANEW) from problem
        self.pid, self.pgid = self.process.pid, None  # so that every signal goes by the process's own line


def end_soon():
    """End this server when the page has its answer, and its kernels with it; at once if it can't let go of a kernel that never began."""
    loop = asyncio.get_running_loop()
    loop.call_later(1, os.kill, os.getpid(), signal.SIGTERM)
    loop.call_later(6, os._exit, 1)


def offer_forked_kernels():
    """Make the provisioner known to Jupyter in this process and those forked from it, without anything installed."""
    group = KernelProvisionerFactory.GROUP_NAME
    KernelProvisionerFactory.provisioners[NAME] = EntryPoint(NAME, "kit.classroom.servers.kernels:ForkedProvisioner", group)
