"""A learner's real Jupyter server and kernels, all forked and fenced: lesson 00 runs, interrupts arrive, and what dies is replaced."""

import json
import os
import signal
import socket
import time
import urllib.error
import urllib.request
import uuid
from pathlib import Path

import pytest
import websocket

pytest.importorskip("fcntl", reason="no process is forked on Windows")

from kit.classroom.servers import asking, calls, fence
from kit.classroom.servers.kernels import NAME
from kit.coursework import LESSONS
from kit.jupyter import SETTINGS

REASON = fence.missing_fence() or calls.missing_filter()
pytestmark = [pytest.mark.slow, pytest.mark.skipif(REASON is not None, reason=str(REASON))]
TOKEN = "t" * 32
# Settings of a server in which another program takes a port of the first kernel in the moment before the kernel does.
THIEF = """
import socket
from jupyter_client.manager import KernelManager

write, taken = KernelManager.write_connection_file, []

def write_and_lose(manager, **more):
    write(manager, **more)
    if not taken:
        taken.append(socket.create_server(("127.0.0.1", manager.iopub_port)))

KernelManager.write_connection_file = write_and_lose
"""


class Server:
    """One learner's server, asked over HTTP."""

    def __init__(self, state, home):
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = probe.getsockname()[1]
        own = {f"JUPYTER_{each}_DIR": str(home / ".jupyter" / each.lower()) for each in ("CONFIG", "DATA", "RUNTIME")}
        own |= {"JUPYTER_CONFIG_PATH": str(SETTINGS), "HOME": str(home), "IPYTHONDIR": str(home / ".ipython"), "JUPYTER_DEFAULT_PROVISIONER_NAME": NAME}
        argv = [f"--ServerApp.port={self.port}", "--ServerApp.port_retries=0", "--ServerApp.open_browser=False", "--ServerApp.allow_root=True"]
        argv += [f"--ServerApp.root_dir={home}", f"--IdentityProvider.token={TOKEN}"]
        request = {"module": "jupyter_server", "argv": argv, "cwd": str(home), "env": own, "home": str(home)}
        self.log = Path(state, f"{home.name}.log")
        with open(self.log, "wb") as words, asking.line_or_start(state) as line:
            self.process = asking.Forked(line, request, words.fileno())
        self.until(self.answers)

    def end(self):
        self.process.kill()
        self.process.wait(60)

    def until(self, true):
        end = time.monotonic() + 60
        while not true():
            assert time.monotonic() < end, self.log.read_text()
            time.sleep(0.05)

    def answers(self):
        assert self.process.poll() is None, self.log.read_text()
        try:
            return self.ask("GET", "status")
        except OSError:
            return None

    def ask(self, way, path):
        request = urllib.request.Request(f"http://127.0.0.1:{self.port}/api/{path}", b"{}" if way == "POST" else None, method=way)
        request.add_header("Authorization", f"token {TOKEN}")
        with urllib.request.urlopen(request, timeout=60) as reply:
            return json.loads(reply.read() or "{}")

    def kernel(self):
        return Kernel(self, self.ask("POST", "kernels")["id"])


class Kernel:
    """One kernel, spoken with as a page does."""

    def __init__(self, server, name):
        self.server, self.name = server, name
        address = f"ws://127.0.0.1:{server.port}/api/kernels/{name}/channels?token={TOKEN}"
        self.line = websocket.create_connection(address, timeout=60)

    def send(self, code):
        header = {"msg_id": uuid.uuid4().hex, "msg_type": "execute_request", "session": "s", "username": "u", "version": "5.3"}
        content = {"code": code, "silent": False, "user_expressions": {}, "allow_stdin": False, "stop_on_error": True}
        message = {"header": header, "parent_header": {}, "metadata": {}, "content": content, "channel": "shell"}
        self.line.send(json.dumps(message))
        return header["msg_id"]

    def run(self, code):
        """What it printed; "NAME: text" of an error."""
        return self.heard(self.send(code))

    def hear(self):
        """The next message; without the parts that come beside its JSON."""
        said = self.line.recv()
        if not isinstance(said, str):
            said = bytes(said)
            begins, ends = (int.from_bytes(said[at : at + 4], "big") for at in (4, 8))
            said = said[begins:ends]
        return json.loads(said)

    def heard(self, sent):
        said = ""
        while True:
            message = self.hear()
            if message["parent_header"].get("msg_id") != sent:
                continue
            kind, content = message["msg_type"], message["content"]
            if kind == "stream":
                said += content["text"]
            if kind == "error":
                said += f"{content['ename']}: {content['evalue']}"
            if kind == "status" and content["execution_state"] == "idle":  # comes after all that was printed
                return said


@pytest.fixture(scope="module")
def place(tmp_path_factory):
    folder = tmp_path_factory.mktemp("class")
    for name in ("state", "homes/01", "homes/02"):
        (folder / name).mkdir(parents=True)
    yield folder
    preloaded = asking.STARTED.pop(str(folder / "state"))
    preloaded.kill()
    preloaded.wait()


@pytest.fixture
def server(place):
    made = Server(str(place / "state"), place / "homes" / "01")
    yield made
    made.end()


def cells_of(lesson):
    book = json.loads((LESSONS / f"{lesson}.ipynb").read_text())
    return ["".join(cell["source"]) for cell in book["cells"] if cell["cell_type"] == "code"]


def test_lesson_00_runs_in_a_fenced_kernel_and_its_marks_are_kept(server, place):
    kernel = server.kernel()
    for cell in cells_of("00-your-first-run"):
        said = kernel.run(cell)
        assert "Error" not in said and "Fault" not in said, said
    assert kernel.run("from kit import Windows, example_run, mark_windows; marker = mark_windows(example_run('basalt'))") == ""
    assert kernel.run("marker.windows = Windows.of_perturbation(11)") == ""
    assert list((place / "homes/01").rglob("marks/*.json"))


def test_a_kernel_is_interrupted_restarted_and_limited(server):
    kernel = server.kernel()
    sent = kernel.send("import time; print('up', flush=True); time.sleep(600)")
    while kernel.hear()["content"].get("text") != "up\n":
        pass
    server.ask("POST", f"kernels/{kernel.name}/interrupt")
    assert kernel.heard(sent) == "KeyboardInterrupt: "
    assert kernel.run("x = bytearray(3 << 30)") == "MemoryError: "
    assert kernel.run("import os; os.fork()").startswith("PermissionError")
    assert kernel.run("import subprocess; subprocess.run(['true'])").startswith("PermissionError")
    assert kernel.run("print(6 * 7)") == "42\n"
    server.ask("POST", f"kernels/{kernel.name}/restart")
    again = Kernel(server, kernel.name)
    assert again.run("x").startswith("NameError")
    server.ask("DELETE", f"kernels/{kernel.name}")
    assert server.ask("GET", "kernels") == []


def test_a_kernel_whose_port_another_program_took_is_started_with_others(place):
    settings = place / "homes" / "02" / ".jupyter" / "config" / "jupyter_server_config.py"
    settings.parent.mkdir(parents=True, exist_ok=True)
    settings.write_text(THIEF)
    server = Server(str(place / "state"), place / "homes" / "02")
    try:
        assert server.kernel().run("print(6 * 7)") == "42\n"
        assert "Address already in use" in server.log.read_text()
    finally:
        settings.unlink()
        server.end()


def test_when_the_preloaded_process_is_killed_kernels_go_on_and_a_new_one_is_started(server, place):
    kernel, other = server.kernel(), server.kernel()
    pids = [int(each.run("import os; x = 41; print(os.getpid())")) for each in (kernel, other)]
    kill_preloaded(place)
    server.ask("POST", f"kernels/{kernel.name}/interrupt")  # not heard, and no harm
    assert kernel.run("print(x + 1)") == "42\n" and server.process.poll() is None
    server.ask("DELETE", f"kernels/{other.name}")
    server.until(lambda: not asking.is_alive(pids[1]))
    with pytest.raises(urllib.error.HTTPError) as refused:
        server.kernel()
    assert "Reload the page" in refused.value.read().decode()
    server.until(lambda: server.process.poll() is not None and not asking.is_alive(pids[0]))
    again = Server(str(place / "state"), place / "homes" / "02")
    assert again.kernel().run("print('new')") == "new\n"
    again.end()


def test_a_restart_without_the_preloaded_process_ends_the_server_which_is_started_anew(server, place):
    kernel = server.kernel()
    pid = int(kernel.run("import os; print(os.getpid())"))
    kill_preloaded(place)
    with pytest.raises(urllib.error.HTTPError):
        server.ask("POST", f"kernels/{kernel.name}/restart")
    server.until(lambda: server.process.poll() is not None and not asking.is_alive(pid))


def kill_preloaded(place):
    process = asking.STARTED[str(place / "state")]
    os.kill(process.pid, signal.SIGKILL)
    process.wait()
