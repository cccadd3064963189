"""A small class, really served, by learners without browsers: they come at once, work, and lose nothing when a part of it is killed."""

import asyncio
import os
import signal
import subprocess
import sys
import time
import urllib.error
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager

import psutil
import pytest

from kit.bootstrap.places import CHECKOUT, LESSONS
from kit.classroom import members, place_in, seats, tickets_on, why_together
from kit.classroom.trial.learner import code_of, HttpLearner
from kit.classroom.place import VARIABLE
from kit.records import Windows
from tests.browser.server import own_port
from tests.classroom.serving import needs_hub

pytestmark = [needs_hub, pytest.mark.slow, pytest.mark.skipif(os.name == "nt", reason="a class can't be served from Windows itself")]
EDGES = list(Windows.of_perturbation(11).seconds)  # of the lesson's own run


class Served:
    """`python3 -m kit serve` at work in `folder`; `say(words)` runs another of its commands."""

    def __init__(self, folder, *words):
        self.folder, self.words, self.port, self.process = folder, words, own_port(), None
        self.origin = f"http://127.0.0.1:{self.port}"

    def start(self):
        command = [sys.executable, "-m", "kit.commands", "serve", str(self.folder), "--as-root", "--only-here", "--port", str(self.port), *self.words]
        self.process = subprocess.Popen(command, cwd=CHECKOUT, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
        self.until("To end it")
        self.place = place_in(self.folder)
        self.tickets, _ = tickets_on(self.place)

    def until(self, words):
        """Read on until the command has said these words; all it said."""
        said = ""
        while words not in said:
            assert (line := self.process.stdout.readline()), said
            said += line
        return said

    def say(self, *words):
        command = [sys.executable, "-m", "kit.commands", "serve", *words, str(self.folder)]
        return subprocess.run(command, cwd=CHECKOUT, capture_output=True, text=True, timeout=120).stdout

    def kill(self, word, forked=True):
        """kill -9 what has this word in its command line, which a `forked` process has from its parent; the processes that had it."""
        found = [each for each in members(self.place) if any(word in part for part in each.cmdline())]
        found = [each for each in found if forked or each.ppid() not in {other.pid for other in found}]
        for process in found:
            process.kill()
        psutil.wait_procs(found, timeout=30)
        return found

    def end(self):
        """Kill everything that is left."""
        for process in [*members(self.place), *([self.process] if self.process else [])]:
            process.kill()
        self.process.communicate()


@contextmanager
def served(folder, *words):
    class_ = Served(folder, *words)
    try:
        class_.start()
        yield class_
    finally:
        if class_.process:
            class_.place = place_in(folder, make=True)
            class_.end()


@pytest.fixture(scope="module")
def class_(tmp_path_factory):
    names = tmp_path_factory.mktemp("names") / "names.txt"
    names.write_text("Ada\nGrace\n<i>Emmy</i>\n", encoding="utf-8")
    apart = why_together(place_in(tmp_path_factory.mktemp("x") / "y", make=True)) is None
    with served(tmp_path_factory.mktemp("served") / "class", "--names", str(names), "--learners", "4", *([] if apart else ["--trusted"])) as class_:
        yield class_


@pytest.fixture(scope="module")
def loop():
    with asyncio.Runner() as runner:
        yield runner


@pytest.fixture(scope="module")
def learners(class_):
    """Three of the four, who signed in at once."""
    three = [HttpLearner(class_.origin, *each) for each in list(class_.tickets.items())[:3]]
    with ThreadPoolExecutor(3) as several:
        list(several.map(HttpLearner.sign_in, three))
    return three


@pytest.fixture(scope="module")
def ada(learners, loop):
    """One of them, with the lesson run and the windows placed."""
    learners[0].begin()
    loop.run(learners[0].connect())
    loop.run(learners[0].run(code_of(LESSONS / "00-your-first-run.ipynb")))
    answer, _ = loop.run(learners[0].move(1, EDGES, "rest"))
    assert answer["sentence"].startswith("The treated vessel warmed by")
    return learners[0]


def moved(loop, learner, number):
    """What comes back after a move: a number on the lesson's page."""
    answer, _ = loop.run(learner.move(number, [EDGES[0] + number, *EDGES[1:]]))
    return answer["value"]


def refused(learner, way, what):
    with pytest.raises(urllib.error.HTTPError) as problem:
        learner.ask(way, what)
    return problem.value.code


def test_each_has_a_folder_of_their_own_and_their_name_above_the_lesson(class_, learners):
    told = [each.ask("GET", "twin-vessels/lesson?path=00-your-first-run.ipynb&cell=00-title") for each in learners]
    assert [each["learner"] for each in told] == ["Ada", "Grace", "<i>Emmy</i>"] and {each["title"] for each in told} == {"Your first run"}
    homes = sorted(path.name for path in class_.place.homes.iterdir())
    assert homes == ["01", "02", "03"] and all((class_.place.home(each) / "00-your-first-run.ipynb").exists() for each in homes)


def test_nothing_of_lsp_or_terminals_is_there(learners):
    assert [refused(learners[0], "GET", what) for what in ("lsp/status", "api/terminals")] == [404, 404]
    assert "@jupyterlab/lsp-extension" in learners[0].get(f"/user/{learners[0].number}/lab")[1]


def test_nobody_comes_to_anothers_page(learners):
    visitor = HttpLearner(learners[0].origin, "02", "")
    visitor.jar, visitor.opener = learners[0].jar, learners[0].opener
    assert refused(visitor, "GET", "api/contents") in (403, 404)


def test_a_wrong_ticket_is_answered_late_and_together_they_are_few(class_):
    """8 at once, 2 s each: 12 tries take two turns, whoever makes them."""

    def wrong(_):
        visitor = HttpLearner(class_.origin, "01", "aaaa-aaaa-aaaa")
        with pytest.raises(urllib.error.HTTPError) as problem:
            visitor.sign_in()
        return problem.value.code

    began = time.monotonic()
    with ThreadPoolExecutor(12) as several:
        codes = list(several.map(wrong, range(12)))
    assert set(codes) == {403} and time.monotonic() - began >= 4.0


def test_the_teacher_sees_who_is_in(class_, ada):
    first, *_ = seats(class_.place)
    assert (first.number, first.name) == ("01", "Ada") and first.memory_mb > 20 and first.last_min < 30
    said = class_.say("list")
    assert "01  Ada" in said and "3 of 4 are in" in said


def test_a_killed_hub_is_started_again_and_nobody_notices(class_, ada, loop):
    assert class_.kill("hub_config.py") and moved(loop, ada, 2)
    class_.until("It is back.")
    HttpLearner(class_.origin, "02", class_.tickets["02"]).sign_in()
    assert moved(loop, ada, 3)


def test_a_killed_proxy_comes_back_and_the_same_python_answers(class_, ada, loop):
    assert class_.kill("configurable-http-proxy")
    class_.until("It is back.")
    loop.run(ada.connect())
    assert moved(loop, ada, 4)


def test_a_killed_preloaded_process_is_missed_by_nobody(class_, ada, loop):
    if class_.kill("kit.classroom.servers.preloaded", forked=False):
        assert moved(loop, ada, 5)
        late = HttpLearner(class_.origin, "04", class_.tickets["04"])
        late.sign_in()
        late.begin()
        loop.run(late.connect())
        loop.run(late.run(["1 + 1"]))


def test_a_withdrawn_ticket_opens_nothing_any_more(class_, learners):
    grace = learners[1]
    assert "The ticket of number 02 is withdrawn" in class_.say("withdraw", "02")
    with pytest.raises(urllib.error.HTTPError) as problem:
        HttpLearner(class_.origin, "02", grace.ticket).sign_in()
    where, _ = grace.get("/hub/home")
    assert problem.value.code == 403 and "/hub/login" in where
    assert class_.place.home("02").is_dir() and "02  Grace                     not in" in class_.say("list")


def test_when_everything_is_killed_the_work_and_the_tickets_are_there_again(class_, ada, loop):
    kept = {path.name: path.read_bytes() for path in class_.place.home("01").glob("marks/*")}
    class_.process.kill()
    class_.kill("")
    class_.process.communicate()
    assert kept and not members(class_.place)
    class_.start()
    again = HttpLearner(class_.origin, "01", ada.ticket)
    again.sign_in()
    again.begin()
    loop.run(again.connect())
    loop.run(again.run(code_of(LESSONS / "00-your-first-run.ipynb")))
    assert {path.name: path.read_bytes() for path in class_.place.home("01").glob("marks/*")} == kept
    told = again.ask("GET", "twin-vessels/lesson?path=00-your-first-run.ipynb&cell=00-title")
    assert told["learner"] == "Ada" and moved(loop, again, 6)


def test_a_second_window_is_refused_and_ctrl_c_ends_everything(class_, ada):
    assert "being served already" in subprocess.run(
        [sys.executable, "-m", "kit.commands", "serve", str(class_.folder), "--as-root"], cwd=CHECKOUT, capture_output=True, text=True, timeout=60
    ).stderr
    class_.process.send_signal(signal.SIGINT)
    assert class_.process.wait(90) == 0 and not members(class_.place)
    assert "The class has ended. The work is in" in class_.process.stdout.read()


def test_without_a_fence_a_trusted_class_works_the_same(tmp_path, loop):
    with served(tmp_path / "class", "--learners", "1", "--together", "--trusted") as plain:
        learner = HttpLearner(plain.origin, "01", plain.tickets["01"])
        learner.sign_in()
        learner.begin()
        loop.run(learner.connect())
        loop.run(learner.run(["import os; mine = os.getcwd()"]))
        assert VARIABLE in next(each for each in members(plain.place) if "ipykernel_launcher" in " ".join(each.cmdline())).environ()
        plain.process.send_signal(signal.SIGTERM)
        assert plain.process.wait(90) == 0 and not members(plain.place)
