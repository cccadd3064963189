"""JupyterHub's spawner: a learner's server is forked from the preloaded process, which is started anew where it has ended."""

import asyncio
import os
from pathlib import Path

from traitlets import Unicode

from kit.classroom.servers.asking import Forked, line_or_start
from kit.classroom.servers.kernels import NAME
from kit.classroom.servers.starting import PortSpawner


class ForkedSpawner(PortSpawner):
    """Known by its process id alone, as after a restart of the hub: a server outlives both the hub and the preloaded process."""

    state_folder = Unicode(help="Where the door of the preloaded process is, and the servers' logs.").tag(config=True)

    async def launch(self):
        env = self.get_env() | {"JUPYTER_DEFAULT_PROVISIONER_NAME": NAME}
        request = {"module": "jupyterhub.singleuser", "argv": self.get_args(), "cwd": self.home_dir, "env": env, "home": self.home_dir}
        self.pid = await asyncio.to_thread(self.fork, request)
        return self.ip or "127.0.0.1", self.port

    def fork(self, request):
        """The process id of the new server."""
        os.makedirs(self.home_dir, 0o700, exist_ok=True)
        log = os.open(Path(self.state_folder, f"server-{self.user.name}.log"), os.O_WRONLY | os.O_CREAT | os.O_TRUNC | os.O_CLOEXEC, 0o600)
        try:
            with line_or_start(self.state_folder) as asking:
                return Forked(asking, request, log).pid
        finally:
            os.close(log)
