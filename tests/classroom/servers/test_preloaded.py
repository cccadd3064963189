"""Children of the preloaded process: where they land, what their askers may do, and what they may take. Each is a real fork, really fenced."""

import contextlib
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

resource = pytest.importorskip("resource", reason="limits of a process are not for Windows")

from kit.classroom.servers import calls, fence, limits, preloaded
from kit.classroom.servers.asking import Forked, line_to, NotForked, SILENT
from kit.classroom.servers.talk import hear, pair, say

TOP = Path(__file__).parents[3]
REASON = fence.missing_fence() or calls.missing_filter()
pytestmark = pytest.mark.skipif(REASON is not None, reason=str(REASON))

# The process itself, without the seconds that loading everything takes, and with a small folder and a quick look at it.
LIGHT = """
import numpy
from kit.classroom.servers import asking, preloaded
preloaded.preload = lambda: print("nothing to load")
preloaded.LOOK_S, preloaded.FOLDER, preloaded.THREADS_EACH = 0.1, 6 << 20, 40
preloaded.main({state!r})
"""
ASK = """
import os, socket
from kit.classroom.servers.asking import Forked
asking = socket.socket(fileno=int(os.environ["TWIN_VESSELS_LINE"]))
code = {code!r}
child = Forked(asking, {{"module": "timeit", "argv": ["-n1", "-r1", "-s", code], "cwd": {cwd!r}, "env": {env!r}, "home": {home!r}}}, 1)
print("child ended with", child.wait(20))
"""


@pytest.fixture(scope="module")
def place(tmp_path_factory):
    folder = tmp_path_factory.mktemp("class")
    for name in ("state", "homes/01", "homes/02"):
        (folder / name).mkdir(parents=True)
    (folder / "homes/02/secret").write_text("answers")
    return folder


@pytest.fixture(scope="module")
def state(place):
    words = [sys.executable, "-c", LIGHT.format(state=str(place / "state"))]
    process = subprocess.Popen(words, cwd=TOP)
    try:
        until = time.monotonic() + 60
        while not (place / "state" / "preloaded.socket").exists():
            assert process.poll() is None and time.monotonic() < until
            time.sleep(0.02)
        yield str(place / "state")
    finally:
        process.terminate()
        process.wait()


def ask(code, cwd, home="", **env):
    """Code of a server that asks for a kernel."""
    return ASK.format(code=code, cwd=str(cwd), home=str(home), env=env)


class Learner:
    """One learner's child: Python code that runs in their folder, and what it says."""

    def __init__(self, state, home, code):
        self.home, self.log = Path(home), Path(state, f"{time.monotonic_ns()}.log")
        with open(self.log, "wb") as words, line_to(state) as asking:
            request = {"module": "timeit", "argv": ["-n1", "-r1", "-s", code], "cwd": str(home), "env": {}, "home": str(home)}
            self.process = Forked(asking, request, words.fileno())

    def said(self):
        self.process.wait(60)
        return [line for line in self.log.read_text().splitlines() if not line.startswith("1 loop")]

    def says(self, word):
        """Wait until it has said the word."""
        until = time.monotonic() + 60
        while word not in self.log.read_text():
            assert time.monotonic() < until and self.process.poll() is None, self.log.read_text()
            time.sleep(0.02)


@pytest.fixture
def learner(state, place):
    """Makes learners; ends whoever still runs."""
    made = []

    def make(code, home="01"):
        made.append(Learner(state, place / "homes" / home, code))
        return made[-1]

    yield make
    for each in made:
        each.process.kill()
        each.process.wait(60)


def test_a_child_works_in_its_own_folder_and_reaches_no_other(learner, place):
    code = f"import os; print(os.getcwd()); print(open({str(place / 'homes/02/secret')!r}).read())"
    said = learner(code).said()
    assert said[0] == str(place / "homes/01") and said[-1].startswith("PermissionError")


@pytest.mark.parametrize("name", ["tickets.json", "cookie_secret", "hub.sqlite", "keys.json", "preloaded.socket"])
def test_no_child_reads_or_changes_what_the_hub_keeps(learner, state, name):
    path = Path(state, name)
    if name != "preloaded.socket":
        path.write_text("secret")
    code = f"""
for way in (lambda: open({str(path)!r}).read(), lambda: open({str(path)!r}, "w"), lambda: __import__("os").unlink({str(path)!r})):
    try: print(way())
    except OSError as problem: print(type(problem).__name__)
"""
    assert set(learner(code).said()) == {"PermissionError"} and path.exists()


def test_a_server_gets_its_children_into_its_own_folder_whatever_it_says(learner, place):
    own, other = str(place / "homes/01"), str(place / "homes/02")
    code = f"import os; print(os.getcwd()); print(os.environ.get('TWIN_VESSELS_LINE')); print(os.listdir({other!r}))"
    said = learner(ask(code, own, other)).said()
    assert said[:2] == [own, "None"] and "PermissionError" in " ".join(said) and said[-1] == "child ended with 1"
    assert "PermissionError" in " ".join(learner(ask(code, other, other)).said())
    assert "PermissionError" in " ".join(learner(ask(code, own, other, TWIN_VESSELS_COURSE=other)).said())


def test_a_kernel_ends_with_the_server_that_asked_for_it(learner, place):
    code = "import os, time; print('kernel', os.getpid(), flush=True); time.sleep(600)"
    server = learner(ask(code, place / "homes/01"))
    server.says("kernel")
    pid = int(server.log.read_text().split()[1])
    server.process.kill()
    until = time.monotonic() + 20
    while Path(f"/proc/{pid}").exists():
        assert time.monotonic() < until
        time.sleep(0.02)


def test_a_server_outlives_the_line_of_the_hub(learner):
    server = learner("import time; print('up', flush=True); time.sleep(600)")
    server.says("up")
    server.process.line.close()
    again = learner("print('another')")
    assert again.said() == ["another"]
    os.kill(server.process.pid, 0)
    os.kill(server.process.pid, signal.SIGKILL)
    server.process.returncode = -9


def test_an_interrupt_reaches_the_child_alone(learner):
    one, other = (learner("import time; print('up', flush=True); time.sleep(600)") for _ in range(2))
    for each in (one, other):
        each.says("up")
    one.process.send_signal(signal.SIGINT)
    assert one.said()[-1] == "KeyboardInterrupt" and other.process.poll() is None


def test_whoever_is_filtered_is_not_heard_at_the_door(state):
    code = f"""
from kit.classroom.servers import asking, calls
calls.program = lambda numbers: [(calls.RETURN, 0, 0, calls.ALLOW)]
calls.refuse_calls()
asking.Forked(asking.line_to({state!r}), {{"module": "this", "argv": [], "cwd": "/", "env": {{}}, "home": "/"}}, 1)
"""
    done = subprocess.run([sys.executable, "-c", code], cwd=TOP, capture_output=True, text=True, timeout=60)
    assert done.stderr.strip().splitlines()[-1] == f"kit.classroom.servers.asking.NotForked: {SILENT}"


def test_nonsense_at_the_door_stops_nobody(state, learner):
    with line_to(state) as line, line_to(state) as other, open(os.devnull) as file:
        line.send(b"{")
        for message in ([], {"signal": 9}, {"module": "this", "home": 3}):
            with contextlib.suppress(OSError):
                say(other, message, [file.fileno()] * 4)
        assert learner("print('still here')").said() == ["still here"]


def test_every_child_has_dice_of_its_own(learner):
    code = "import numpy, random; print(numpy.random.random(), random.random())"
    assert learner(code).said() != learner(code).said()


def test_one_learner_can_not_have_any_number_of_processes(learner):
    made = [learner("import time; time.sleep(600)") for _ in range(limits.PROCESSES)]
    with pytest.raises(NotForked) as refused:
        learner("print(1)")
    assert str(refused.value).startswith("No more than 6 kernels can run at once.")
    assert learner("print('neighbour')", "02").said() == ["neighbour"] and made[0].process.poll() is None


def test_too_much_memory_is_an_error_there_and_nowhere_else(learner):
    greedy = learner("try: bytearray(3 << 30)\nexcept MemoryError: print('no', flush=True)\nimport time; time.sleep(600)")
    greedy.says("no")
    assert learner("print(len(bytearray(300 << 20)))", "02").said() == [str(300 << 20)]


FILL = """
import time
def fill(name):
    while True:
        with open(name + str(time.monotonic_ns()), "wb") as file: file.write(bytes(2 << 20))
try: fill("a")
except OSError as problem: print("full", problem.errno, flush=True)
open("marks", "wb").write(bytes(1 << 19))
print("marks kept", flush=True)
"""


def test_a_full_folder_is_an_error_there_and_marks_are_still_kept(learner):
    greedy = learner(FILL + "time.sleep(600)")
    greedy.says("marks kept")
    assert greedy.log.read_text().startswith("full 27")
    for each in greedy.home.glob("a*"):
        each.unlink()
    until = time.monotonic() + 20
    while resource.prlimit(greedy.process.pid, resource.RLIMIT_FSIZE)[0] < 4 << 20:
        assert time.monotonic() < until
        time.sleep(0.02)


def test_removed_files_count_too(learner):
    code = "import os, time\nheld = []\nwhile True:\n    held.append(open('x', 'wb')); held[-1].write(bytes(2 << 20)); os.unlink('x')"
    assert "OSError: [Errno 27] File too large" in learner(code).said()


def test_who_lifts_the_limit_and_fills_on_loses_the_kernel_only(learner, place):
    code = FILL + "import resource\nhard = resource.getrlimit(1)[1]\nwhile True:\n    resource.setrlimit(1, (hard, hard))\n"
    code += "    with contextlib.suppress(OSError): open('b' + str(time.monotonic_ns()), 'wb').write(bytes(2 << 20))"
    server = learner(ask("import contextlib\n" + code, place / "homes/02"), "02")
    assert server.said()[-1] == "child ended with -9"
    assert (place / "homes/02/secret").read_text() == "answers"


def test_who_starts_any_number_of_threads_loses_the_kernel_only(learner, place):
    code = "import threading\nend = threading.Event()\nfor _ in range(60): threading.Thread(target=end.wait).start()\nend.wait()"
    assert learner(ask(code, place / "homes/01")).said()[-1] == "child ended with -9"


def test_a_machine_without_room_for_a_process_is_told_and_goes_on(monkeypatch):
    def no_room():
        raise BlockingIOError(11, "Resource temporarily unavailable")

    with preloaded.socket.socket() as door:
        process = preloaded.Preloaded(door)
        own, theirs = pair()
        monkeypatch.setattr(preloaded.os, "fork", no_room)
        process.fork({}, "home", own, [], is_server=True)
        assert hear(theirs) == ({"refused": preloaded.FULL}, []) and not process.children
        process.forget(theirs)
        signal.signal(signal.SIGCHLD, signal.SIG_DFL)
