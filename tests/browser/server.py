"""A JupyterLab for tests, started as a learner starts it, and the notebooks put before it."""

import json
import os
import random
import re
import signal
import socket
import subprocess
import sys
import time
import urllib.parse
from contextlib import suppress
from pathlib import Path
from weakref import WeakSet

import psutil

CHECKOUT = Path(__file__).parents[2]
ADDRESS = re.compile(r"http://127\.0\.0\.1:\d+/\S+")


class Lab:
    """A JupyterLab started by the kit's own command in the folder `work`, with `more` words; `pid` is the server's process, `pages` show it."""

    def __init__(self, work, log, *more):
        self.work, self.pages = Path(work), WeakSet()
        command = [sys.executable, "-m", "kit", "lab", "--no-browser", "--work", str(work), "--port", str(own_port()), *more]
        with open(log, "w") as file:  # exposing the app: so that a test can ask the page what it would otherwise have to guess
            self.process = subprocess.Popen(
                [*command, "--", "--LabApp.expose_app_in_browser=True"], cwd=CHECKOUT, stdout=file, stderr=subprocess.STDOUT
            )
        self.pid, self.log = self.process.pid, Path(log)
        try:
            self.landing = self._address()
        except BaseException:  # the limit of the test, too
            self.kill()
            raise
        self.origin, self.token = self.landing.split("/lab")[0], self.landing.split("token=")[1]

    def _address(self):
        for _ in range(3000):
            if found := ADDRESS.search(self.log.read_text()):
                return found.group()
            assert self.process.poll() is None, self.log.read_text()
            time.sleep(0.05)
        raise AssertionError(f"JupyterLab was not up in two minutes and a half: {self.log.read_text()}")

    def url(self, name):
        """Where the notebook `name` of the work folder is shown. `reset`, or the last page's notebook would come back."""
        return f"{self.origin}/lab/tree/{urllib.parse.quote(name)}?reset&token={self.token}"

    def kernel_pid(self, kernel_id):
        """The process of a kernel, by the id that `open_notebook` gives; awaited where the server is just starting it again."""
        for _ in range(600):
            for child in psutil.Process(self.pid).children(recursive=True):
                with suppress(psutil.Error):  # another kernel that has just ended has no command line
                    if any(kernel_id in word for word in child.cmdline()):
                        return child.pid
            time.sleep(0.05)
        raise AssertionError(f"The kernel {kernel_id} was not there in half a minute.")

    def kill_kernel(self, kernel_id):
        """End a kernel as a fault in its Python would."""
        os.kill(self.kernel_pid(kernel_id), signal.SIGKILL)

    def kill(self):
        """End the server as a power cut would."""
        self.process.kill()
        self.process.wait(60)

    def stop(self):
        """End the server as Ctrl-C does. Its exit status; kernels end with it."""
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGINT)
        return self.process.wait(60)


def written(path, cells):
    """The name of the new notebook at `path` with these code cells."""
    code = {"cell_type": "code", "metadata": {}, "execution_count": None, "outputs": []}
    kernel = {"name": "python3", "display_name": "Python 3", "language": "python"}
    cells = [code | {"id": f"cell-{place}", "source": source} for place, source in enumerate(cells)]
    book = {"cells": cells, "metadata": {"kernelspec": kernel}, "nbformat": 4, "nbformat_minor": 5}
    path.write_text(json.dumps(book), encoding="utf-8")
    return path.name


def own_port():
    """A port that nobody else is given: not the first free one, which two servers that begin in the same second would both find, nor one of those
    that a system gives to whoever asks for any (Linux from 32768 on, see ip(7)), for a server takes seconds to begin."""
    while True:
        with socket.socket() as probe, suppress(OSError):
            probe.bind(("127.0.0.1", random.SystemRandom().randrange(20000, 32000)))
            return probe.getsockname()[1]
