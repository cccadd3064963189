"""`serve`: what it refuses and why, and what a second start says. The class itself is in tests/classroom."""

import os
import socket
from pathlib import Path

import pytest

from kit.bootstrap.options import read
from kit.bootstrap.places import CHECKOUT, COURSE, LESSONS
from kit.classroom import give_tickets, place_in, read_tickets
from kit.commands import serve as serving
from kit.course import add_lesson, new_course
from kit.faults import Fault
from tests.browser.server import own_port
from tests.classroom.serving import needs_hub

pytestmark = pytest.mark.skipif(os.name == "nt", reason="a class can't be served from Windows itself")


def refused(*words):
    with pytest.raises(SystemExit) as end:
        serving.serve(read(["serve", *map(str, words)]))
    return str(end.value)


def test_words_are_an_action_whom_and_a_folder():
    told = [read(["serve", *words.split()]) for words in ("", "x", "list", "list x", "withdraw 7", "withdraw 7 x --anew", "stop", "new-term x")]
    own = CHECKOUT / "my-served-class"
    assert [(each.action, each.whom, str(each.folder)) for each in told] == [
        ("start", None, str(own)), ("start", None, "x"), ("list", None, str(own)), ("list", None, "x"), ("withdraw", "7", str(own)),
        ("withdraw", "7", "x"), ("stop", None, str(own)), ("new-term", None, "x"),
    ]  # fmt: skip


@pytest.mark.parametrize("words", [["withdraw"], ["a", "b"], ["--learners", "0"], ["--learners", "100"]])
def test_words_that_mean_nothing_are_refused(words):
    with pytest.raises(SystemExit):
        read(["serve", *words])


def test_root_is_refused_unless_they_say_so(monkeypatch, tmp_path):
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    assert refused(tmp_path / "class") == serving.ROOT and not (tmp_path / "class").exists()


def test_a_class_that_is_not_kept_apart_must_be_trusted(monkeypatch, tmp_path):
    monkeypatch.setattr(serving, "why_together", lambda place: "Only Linux can keep learners' folders apart.")
    assert refused(tmp_path / "class", "--as-root") == serving.TRUST.format("Only Linux can keep learners' folders apart.")


def test_a_courses_folder_is_served_as_learners_get_it_and_is_not_changed(monkeypatch, tmp_path):
    monkeypatch.setenv(COURSE, "")  # so that it is put back
    made, place = new_course(tmp_path / "ours", [LESSONS / "04-is-it-steady.ipynb"]), place_in(tmp_path / "class", make=True)
    lesson = add_lesson(made, "20-our-lamp")
    before = {path: path.read_bytes() for path in tmp_path.rglob("ours/*") if path.is_file()}
    old = place.root / "course" / "ours" / "09-gone.ipynb"
    old.parent.mkdir(parents=True)
    old.touch()
    serving.open_course(read(["serve", "--course", str(made)]), place)
    served = Path(os.environ[COURSE])
    assert {path.name for path in served.glob("*.ipynb")} == {"04-is-it-steady.ipynb", "20-our-lamp.ipynb", "contents.ipynb"}
    assert "For you, the teacher" in lesson.read_text(encoding="utf-8")
    assert "For you, the teacher" not in (served / lesson.name).read_text(encoding="utf-8")
    assert before == {path: path.read_bytes() for path in tmp_path.rglob("ours/*") if path in before} and not list(tmp_path.glob("*.zip"))
    assert serving.open_lessons(place) == served
    with pytest.raises(Fault, match="a copy of the course is kept"):
        serving.open_course(read(["serve", "--course", str(served)]), place)


@pytest.fixture
def ready(monkeypatch):
    """All but the hub itself: no proxy is fetched."""
    monkeypatch.setattr(serving, "set_up_proxy", lambda: None)


def test_a_port_in_use_is_a_sentence_and_no_ticket_is_made(ready, tmp_path):
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        said = refused(tmp_path / "class", "--as-root", "--trusted", "--only-here", "--port", port)
    assert said == f"Port {port} is taken or not allowed. Choose another number after --port. Then the printed tickets must be printed again."
    assert read_tickets(place_in(tmp_path / "class")).given == 0


def test_without_a_network_it_says_what_to_do(ready, monkeypatch, tmp_path):
    monkeypatch.setattr(serving, "addresses", lambda: [])
    said = refused(tmp_path / "class", "--as-root", "--trusted", "--port", own_port())
    assert said == "This computer is in no network. Join the one that the class is in, or try it out alone: --only-here"


@needs_hub
def test_a_second_start_keeps_tickets_and_page_and_another_address_prints_them_again(tmp_path, capsys):
    place = place_in(tmp_path / "class", make=True)
    options = read(["serve", "--learners", "2"])
    serving.prepare_tickets(options, place, "http://192.0.2.7:8000", True)
    page = place.sheet.read_text()
    serving.prepare_tickets(read(["serve"]), place, "http://192.0.2.7:8000", True)
    assert place.sheet.read_text() == page and f"2 tickets are in use. The tickets are those of {place.sheet}." in capsys.readouterr().out
    serving.prepare_tickets(read(["serve"]), place, "http://192.0.2.8:8000", True)
    moved = place.sheet.read_text()
    assert moved != page and "http://192.0.2.8:8000" in moved and "The address was http://192.0.2.7:8000" in capsys.readouterr().out
    serving.prepare_tickets(read(["serve"]), place, "http://192.0.2.8:8000", "Only Linux can do that.")
    assert "on this computer: Only Linux can do that." in place.sheet.read_text()
    assert "It is made anew; the tickets on it are the same." in capsys.readouterr().out
    place.sheet.unlink()
    (tmp_path / "names.txt").write_text("Ada\n")
    serving.prepare_tickets(read(["serve", "--names", str(tmp_path / "names.txt")]), place, "http://192.0.2.8:8000", True)
    assert "The page of tickets is no longer there; the tickets hold." in capsys.readouterr().out


def test_a_class_that_nobody_serves_is_listed_and_a_ticket_taken_back(tmp_path, capsys):
    place = place_in(tmp_path / "class", make=True)
    given, _ = give_tickets(place, 2, ["Ada"])
    assert serving.serve(read(["serve", "withdraw", given["02"], str(place.root)])) == 0
    assert "The ticket of number 02 is withdrawn" in capsys.readouterr().out
    assert serving.serve(read(["serve", "list", str(place.root)])) == 0
    assert capsys.readouterr().out == (
        f"The class is not being served.\n01  {'Ada':24}  not in, nothing kept yet\n02  {'':24}  not in, nothing kept yet, ticket withdrawn\n"
        "0 of 2 are in, with 0 MB together.\n"
    )
    assert serving.serve(read(["serve", "new-term", str(place.root)])) == 0 and read_tickets(place).given == 0
