"""A learner's own runs: a list that loses nothing, and each read again as it was."""

import json

import pytest

from kit.coursework.answers.answers import add_answer, Answer
from kit.coursework.runs.runs import NO_FILE, own_runs, read_own, remember, remembered
from kit.faults import Fault

TABLE = "time (min)\tleft (°C)\tright (°C)\n0\t21.4\t21.0\n1\t22.0\t21.1\n"
NAMED = {"treated": "left (°C)", "control": "right (°C)"}


def kept(folder, name, keywords, at):
    (folder / name).write_text(TABLE, encoding="utf-8")
    path = remember(name, keywords, folder)
    add_answer(path, Answer("run", "opened", {}, at))
    return path


def test_the_run_that_was_open_last_comes_first(tmp_path):
    assert own_runs(tmp_path) == () and remembered(tmp_path) is None
    kept(tmp_path, "a.csv", NAMED, "2099-01-02T08:00:00+01:00")
    kept(tmp_path, "b.csv", {"clock": ["min", 40]}, "2099-01-01T08:00:00+01:00")
    assert [each.file for each in own_runs(tmp_path)] == ["a.csv", "b.csv"]
    assert remembered(tmp_path) == ("a.csv", NAMED, ())
    (tmp_path / "a.csv").unlink()
    assert remembered(tmp_path) == ("b.csv", {"clock": ["min", 40]}, ())


def test_a_run_is_read_again_as_it_was_and_its_newest_words_count(tmp_path):
    kept(tmp_path, "a.csv", {"treated": 3, "control": 2}, "2099-01-01T08:00:00+01:00")
    remember("a.csv", NAMED, tmp_path)
    (own,) = own_runs(tmp_path)
    assert own.keywords == NAMED and read_own(own, tmp_path).readings["treated"].tolist() == [21.4, 22.0]
    assert len(own.kept.of("run", "brought")) == 2


def test_the_sheet_of_a_workbook_is_part_of_how_it_is_read(tmp_path):
    import openpyxl

    book = openpyxl.Workbook()
    for row in (["time (s)", "treated (°C)", "control (°C)"], [0, 21.0, 20.5], [10, 21.5, 20.5]):
        book.create_sheet("bench").append(row) if "bench" not in book.sheetnames else book["bench"].append(row)
    book.save(tmp_path / "book.xlsx")
    remember("book.xlsx", {"sheet": "bench"}, tmp_path)
    assert read_own(own_runs(tmp_path)[0], tmp_path).readings["treated"].tolist() == [21.0, 21.5]


def test_a_run_whose_file_is_gone_says_so(tmp_path):
    kept(tmp_path, "a.csv", NAMED, "2099-01-01T08:00:00+01:00")
    (own,) = own_runs(tmp_path)
    (tmp_path / "a.csv").unlink()
    with pytest.raises(Fault) as caught:
        read_own(own, tmp_path)
    assert str(caught.value) == NO_FILE.format(file="a.csv")


@pytest.mark.parametrize("content", ["", "{", "[]", {"answers": []}, [{"file": "a.csv"}], [{"file": "a.csv", "keywords": 3}]], ids=str)
def test_a_damaged_note_is_passed_over_and_stays_as_it_is(tmp_path, content):
    answers = [{"card": "run", "kind": "brought", "content": each, "at": "2099"} for each in content] if isinstance(content, list) else None
    text = content if isinstance(content, str) else json.dumps({"answers": answers} if answers else content)
    (tmp_path / "runs").mkdir()
    (tmp_path / "runs" / "a.csv.json").write_text(text)
    assert own_runs(tmp_path) == () and (tmp_path / "runs" / "a.csv.json").read_text() == text
