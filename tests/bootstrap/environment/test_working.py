"""Modules at work: inside their environment only, and never longer than their starter."""

import os
import signal
import subprocess
import sys
import time

import pytest

from kit.bootstrap.environment import working
from kit.bootstrap.environment.working import at_work, let_end, pid_file

posix_only = pytest.mark.skipif(os.name == "nt", reason="sends signals as Linux and macOS do")
# Something of Python's own that runs any code for once stands in for pip: this tells its id and that of a child, and then sleeps.
SLEEPER = """
import os, subprocess, sys, time
child = subprocess.Popen([sys.executable, '-c', 'import time; time.sleep(60)'])
print(os.getpid(), child.pid, flush=True)
time.sleep(60)
"""
# The same, but from before it tells its id no other thread of Python's can run: it won't notice that its starter has gone.
STUCK = """
import ctypes, os
ctypes.PyDLL(None).system(f'echo {os.getpid()} {os.getpid()}; sleep 60'.encode())
"""
ONCE = ("timeit", "--number", "1", "--repeat", "1")
STARTER = """
import sys
from pathlib import Path
from kit.bootstrap.environment.working import at_work
with at_work(Path(sys.argv[1]), *sys.argv[2:]) as process:
    print(process.stdout.readline(), end="", flush=True)
    process.stdout.read()
"""


@pytest.fixture
def environment(tmp_path, monkeypatch):
    """A place for an environment, and no long patience."""
    monkeypatch.setattr(working, "ENDS_BY_ITSELF_S", 0.3)
    return tmp_path / ".venv"


def started(environment, code=SLEEPER):
    """A starter in a process of its own, and the ids of its module and of that one's child."""
    command = [sys.executable, "-c", STARTER, str(environment), *ONCE, code]
    starter = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    return starter, [int(word) for word in starter.stdout.readline().split()]


def is_gone(number, within_s=10):
    until = time.monotonic() + within_s
    while time.monotonic() < until:
        if not lives(number):
            return True
        time.sleep(0.02)
    return False


def lives(number):
    """Does it run? One that has ended but was not yet asked for its status doesn't."""
    said = subprocess.run(["ps", "-o", "stat=", "-p", str(number)], capture_output=True, text=True).stdout.strip()
    return said != "" and not said.startswith("Z")


@posix_only
@pytest.mark.parametrize("number", [signal.SIGKILL, signal.SIGINT, signal.SIGHUP])
def test_what_was_at_work_ends_with_its_starter_and_so_does_what_it_started(environment, number):
    starter, ids = started(environment)
    starter.send_signal(number)
    starter.wait()
    assert all(is_gone(each) for each in ids)
    let_end(environment)
    assert not pid_file(environment).exists()


@posix_only
def test_what_does_not_end_by_itself_is_ended_by_its_own_id(environment, capsys):
    starter, (module, _) = started(environment, STUCK)
    starter.kill()
    starter.wait()
    assert lives(module)
    let_end(environment)
    assert is_gone(module) and capsys.readouterr().out == "  Something of an earlier set-up is still at work. Ending it.\n"


@posix_only
def test_an_id_that_belongs_to_another_program_by_now_is_left_alone(environment, capsys):
    with subprocess.Popen([sys.executable, "-c", "import time; time.sleep(60)"]) as innocent:
        pid_file(environment).write_text(str(innocent.pid))
        let_end(environment)
        assert lives(innocent.pid) and not pid_file(environment).exists() and capsys.readouterr().out == ""
        innocent.kill()


def test_what_runs_pip_refuses_a_python_that_is_at_home_elsewhere(environment):
    environment.mkdir()
    with at_work(environment, "pip", "--version", python=sys._base_executable) as process:
        said = process.stdout.read()
    assert process.returncode == 1
    assert said == f"This Python keeps its packages in {sys.base_prefix}, not in {environment}. Nothing was installed.\n"


def test_a_second_one_is_refused_while_the_first_is_at_work(environment):
    with at_work(environment, *ONCE, SLEEPER) as first:
        first.stdout.readline()
        with at_work(environment, *ONCE, SLEEPER) as second:
            assert second.stdout.read() == "An earlier set-up is still at work.\n"
        first.stdin.close()
