"""What is handed in: one file, shown before it is made, opened again like a report; and a forged one does nothing but be refused."""

import json
import pickle
import zipfile

import pytest

from kit import Fault, hand_in, look_at_hand_in, open_report
from kit.coursework import Answer, KEEP, OUT, add_answer, keep_marks, own_runs, remember
from kit.coursework.runs.deciding import CARD, KIND, places_of
from kit.intake import read_run
from kit.records import Windows
from kit.report.package.package import open_package
from tests.report.conftest import CLAIM, write


def forged(path, **changes):
    """A copy of a hand-in in which members, by name, are other bytes."""
    copy = path.with_name("forged.zip")
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(copy, "w") as new:
        for name in {*old.namelist(), *changes}:
            new.writestr(name, changes.get(name) or old.read(name))
    return copy


def first_run(path):
    return next(name for name in zipfile.ZipFile(path).namelist() if name.startswith("raw/"))


def recorded(path, change):
    """A copy whose record was changed by `change(record)`."""
    record = json.loads(zipfile.ZipFile(path).read("report.json"))
    change(record)
    return forged(path, **{"report.json": json.dumps(record)})


def test_nothing_is_written_before_it_was_looked_at(folder):
    shown = look_at_hand_in()
    assert not list(folder.glob("*.zip")) and str(shown) == "The hand-in would hold 2 things. Nothing is written yet."
    assert shown.contents[0].startswith("run basalt: its file basalt.csv, unchanged, ")
    assert shown.contents[1] == "lesson 00, Your first run: 1 prediction and 1 note"


def test_it_holds_bytes_marks_answers_and_hashes_and_nobodys_name(folder):
    made = hand_in()
    assert made.path.name == "hand-in.zip" and str(made).endswith("in the way that your class agreed on.")
    with zipfile.ZipFile(made.path) as archive:
        assert set(archive.namelist()) == {"report.json", "README.txt", "raw/1-basalt.csv", "readings/1.csv"}
        record = json.loads(archive.read("report.json"))
    assert record["from"] == "" and record["runs"][0]["windows"]["baseline"] and len(record["runs"][0]["sha256"]) == 64
    assert CLAIM in json.dumps(record, ensure_ascii=False)


def test_a_name_is_there_only_if_it_was_given(folder):
    made = hand_in(" Group ../Basalt ")
    assert made.path.parent.samefile(folder) and made.path.name == "hand-in-Basalt.zip" and made.contents[-1] == "the name Group ../Basalt"
    assert open_package(made.path).sender == "Group ../Basalt"


def test_made_anew_it_takes_the_place_of_the_last_and_opens_as_a_report(folder):
    hand_in()
    write("00.claim", "note", text="Another claim.")
    again = open_report(hand_in().path)
    assert again.same and len(list(folder.glob("hand-in*"))) == 1


def test_readings_that_were_left_out_stay_out_when_it_is_opened(folder):
    own = folder / "mine.csv"
    rows = [f"{s},{20 + s / 1000},{20 + s / 2000}" for s in range(0, 1200, 5)]
    rows[100] = "500,85,20.3"
    own.write_text("\n".join(["elapsed_s,treated_degC,control_degC", *rows]))
    notes, run = remember("mine.csv", {}), read_run(own)
    odd = places_of(run)
    for place in odd:
        add_answer(notes, Answer(CARD, KIND, {"place": str(place), "choice": OUT if place is odd[0] else KEEP, "reason": "it slipped"}))
    keep_marks(run, Windows((2, 6), (6, 7), (14, 18)))
    kept = open_report(hand_in().path)
    assert own_runs() and odd and kept.same and kept.evidence[0].run.readings.treated.max() < 40


def test_an_empty_folder_has_nothing_to_hand_in(tmp_path):
    with pytest.raises(Fault, match="nothing to hand in yet"):
        hand_in(folder=tmp_path)


@pytest.mark.parametrize("number", ["../../secret", "/etc/passwd", "**/*", "00*", "", "00/../00"])
def test_a_lesson_that_leads_out_of_its_folder_is_passed_over(folder, number):
    opened = open_package(recorded(hand_in().path, lambda record: record.update(lessons={number: []})))
    assert opened.material.written == () and opened.material.faults[0].startswith(f"There is no lesson {number!r}")


class Bomb:
    def __reduce__(self):
        return exec, ("raise SystemExit('it ran')",)


FORGED = {
    "a pickle for its record": lambda path: forged(path, **{"report.json": pickle.dumps(Bomb())}),
    "a pickle for its run": lambda path: forged(path, **{first_run(path): pickle.dumps(Bomb())}),
    "a run outside": lambda path: recorded(path, lambda record: record["runs"][0].update(file="../../1-secret.csv")),
    "a run by its full path": lambda path: recorded(path, lambda record: record["runs"][0].update(file="/etc/hostname")),
    "a keyword of its own": lambda path: recorded(path, lambda record: record["runs"][0].update(keywords={"progress": "print"})),
    "no windows": lambda path: recorded(path, lambda record: record["runs"][0].update(windows={"baseline": "x"})),
    "windows that are no numbers": lambda path: recorded(path, lambda record: record["runs"][0]["windows"].update(baseline=["=1+1", None])),
    "answers of another kind": lambda path: recorded(path, lambda record: record["lessons"].update({"00": [{"card": 1}]})),
    "a record without end": lambda path: forged(path, **{"report.json": "[" * 200_000}),
    "numbers that are none": lambda path: recorded(path, lambda record: record["runs"][0].update(numbers=7)),
}


@pytest.mark.parametrize("forge", FORGED.values(), ids=FORGED)
def test_a_forged_one_is_refused_in_a_sentence_and_nothing_of_it_runs(folder, forge):
    with pytest.raises(Fault, match="is no report of the kit"):
        open_report(forge(hand_in().path))


def test_a_link_and_a_locked_file_in_it_are_refused(folder):
    path = hand_in().path
    copy = path.with_name("links.zip")
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(copy, "w") as new:
        for entry in old.infolist():
            if entry.filename.startswith("raw/"):
                entry.external_attr = 0o120777 << 16
            new.writestr(entry, old.read(entry.filename))
    with pytest.raises(Fault, match="This is a link, not a file"):
        open_package(copy)


def test_numbers_kept_in_it_are_held_against_new_ones_never_taken_over(folder):
    def better(record):
        record["runs"][0]["numbers"]["effect"]["warming"]["value"] = 99.0

    again = open_report(recorded(hand_in().path, better))
    assert not again.same and again.findings[0].of("effect").warming.value < 2


def test_an_unfit_margin_from_elsewhere_is_passed_over(folder):
    write("08.margin", "decision", margin_c="=cmd|' /C calc'!A0")
    assert open_report(hand_in().path).same
