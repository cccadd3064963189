"""Answers are added and never overwritten; a damaged file is set aside whole; a full disk loses nothing that was there."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kit.faults import Fault
from kit.coursework.answers.answers import Answer, Kept, add_answer, answers_path, peek_at_answers, read_answers


@pytest.fixture
def path(tmp_path):
    return answers_path("00", tmp_path)


def prediction(words):
    return Answer("00.warmer", "prediction", {"words": words})


def note(text):
    return Answer("00.claim", "note", {"text": text})


def test_no_file_means_no_answers(path):
    assert read_answers(path) == Kept() and path.name == "00-answers.json"


@pytest.mark.parametrize(
    ("session", "name"),
    [
        ("/folder/00-your-first-run.ipynb", "/folder/00-your-first-run-answers.json"),
        ("/folder/00-your-first-run-2.ipynb", "/folder/00-your-first-run-2-answers.json"),
        ("a console's id", "00-answers.json"),
    ],
)
def test_answers_belong_to_the_file_of_the_notebook(session, name, monkeypatch):
    monkeypatch.setenv("JPY_SESSION_NAME", session)
    assert answers_path("00") == Path.cwd() / name


def test_a_look_touches_no_damaged_file(path):
    path.write_text("{ torn")
    assert peek_at_answers(path) == Kept() and path.read_text() == "{ torn"


def test_a_second_answer_stands_beside_the_first(path):
    add_answer(path, prediction("cooler"))
    add_answer(path, Answer("00.nocontrol", "prediction", {"words": "the same"}))
    kept = add_answer(path, prediction("wärmer: 1 °C"))
    assert kept == read_answers(path) and [each.content["words"] for each in kept.of("00.warmer")] == ["cooler", "wärmer: 1 °C"]
    assert kept.latest("00.warmer").content == {"words": "wärmer: 1 °C"} and kept.latest("00.warmer", "skipped") is None
    assert "wärmer: 1 °C" in path.read_text(encoding="utf-8")


def test_a_growing_note_is_one_answer_and_a_changed_one_is_two(path):
    for text in ("Treated", "Treated got warmer", "Treated got warmer, 1.5 °C", "Control"):
        kept = add_answer(path, note(text))
    assert [each.content["text"] for each in kept.answers] == ["Treated got warmer, 1.5 °C", "Control"]


MANY = """
import sys
from pathlib import Path
from kit.coursework.answers.answers import Answer, add_answer
print("ready", flush=True)
sys.stdin.readline()
for n in range(40):
    add_answer(Path(sys.argv[1]), Answer("00.warmer", "prediction", {"words": f"{sys.argv[2]} {n}"}))
"""


def test_two_notebooks_that_answer_at_once_lose_nothing(path):
    writers = [subprocess.Popen([sys.executable, "-c", MANY, path, name], stdin=subprocess.PIPE, stdout=subprocess.PIPE) for name in "ab"]
    assert [writer.stdout.readline().strip() for writer in writers] == [b"ready", b"ready"]
    for writer in writers:
        writer.stdin.write(b"go\n")
        writer.stdin.flush()
    assert [writer.communicate(timeout=60) and writer.returncode for writer in writers] == [0, 0]
    kept = [each.content["words"] for each in read_answers(path).answers]
    assert len(kept) == 80 and all([each for each in kept if each[0] == name] == [f"{name} {n}" for n in range(40)] for name in "ab")


@given(st.lists(st.text(alphabet="ab", max_size=4), max_size=8))
def test_no_text_that_was_written_is_ever_lost(tmp_path_factory, texts):
    path = answers_path("00", tmp_path_factory.mktemp("notes"))
    for text in texts:
        add_answer(path, note(text))
    kept = [each.content["text"] for each in read_answers(path).answers]
    assert all(any(later.startswith(text) for later in kept) for text in texts) and kept[-1:] == texts[-1:]


DAMAGED = {
    "cut off": b'{"answers": [{"card": "00.war',
    "empty": b"",
    "binary": b"\xff\xfe\x00\x01",
    "a list": b"[]",
    "no list inside": b'{"answers": 3}',
    "strange entry": b'{"answers": [{"card": "00.warmer"}]}',
    "wrong types": b'{"answers": [{"card": 1, "kind": "note", "content": {}, "at": ""}]}',
    "deep": b'{"answers": ' + b"[" * 100_000 + b"]" * 100_000 + b"}",
}


@pytest.mark.parametrize("content", DAMAGED.values(), ids=DAMAGED)
def test_a_damaged_file_is_set_aside_whole_and_named(path, content):
    path.write_bytes(content)
    said = "The file 00-answers.json could not be read. It is kept unchanged as 00-answers-damaged-1.json; new answers go into a new file."
    assert read_answers(path) == Kept(remark=said)
    assert path.with_name("00-answers-damaged-1.json").read_bytes() == content and not path.exists()


def test_a_second_damaged_file_does_not_replace_the_first(path):
    for content in (b"first", b"second"):
        path.write_bytes(content)
        read_answers(path)
    assert [path.with_name(f"00-answers-damaged-{n}.json").read_bytes() for n in (1, 2)] == [b"first", b"second"]


def test_answers_known_to_the_cards_survive_a_file_that_is_damaged_meanwhile(path):
    known = add_answer(path, prediction("cooler")).answers
    path.write_bytes(b"{")
    kept = add_answer(path, prediction("warmer"), known)
    assert [each.content["words"] for each in read_answers(path).answers] == ["cooler", "warmer"] and "could not be read" in kept.remark


def test_a_full_disk_is_said_and_the_old_answers_stay(path, monkeypatch):
    add_answer(path, prediction("cooler"))
    before = path.read_bytes()
    monkeypatch.setattr(os, "replace", lambda *_: (_ for _ in ()).throw(OSError(28, "No space left on device")))
    with pytest.raises(Fault) as told:
        add_answer(path, prediction("warmer"))
    assert str(told.value) == (
        "This could not be kept in 00-answers.json (No space left on device). "
        "Free some space or ask for help with the folder, then try again."
    )
    assert path.read_bytes() == before


def test_a_folder_in_the_files_place_is_said(path):
    path.mkdir()
    with pytest.raises(Fault) as told:
        read_answers(path)
    assert str(told.value) == (
        "Your answers in 00-answers.json could not be opened (Is a directory). Ask for help with the folder, then run this cell again."
    )


def test_the_file_is_plain_json(path):
    add_answer(path, prediction("cooler"))
    (entry,) = json.loads(path.read_text(encoding="utf-8"))["answers"]
    assert set(entry) == {"card", "kind", "content", "at"}
