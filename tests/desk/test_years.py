"""Counts of one class are kept for the next: numbers alone, and a damaged file keeps nobody waiting."""

import json
from collections import Counter
from dataclasses import replace
from datetime import date

import pytest

from kit import class_desk
from kit.coursework import read_lesson
from kit.desk.counting import GONE, PredictionCount
from kit.desk.years import earlier_years, keep_year, texts_of
from kit.faults import Fault
from kit.widgets.cards.keeping import keeping_at
from tests.desk.test_collecting import SIX
from tests.widgets.parts import block_of, press


def counted(**first):
    lesson = read_lesson("00")
    texts = [choice.text for choice in lesson.predictions[0].choices]
    return PredictionCount(lesson, lesson.predictions[0], Counter({texts["abcde".index(letter)]: n for letter, n in first.items()}), Counter(), Counter())


def test_counts_come_back_as_they_were_kept(tmp_path):
    keep_year(" 8b   2025 ", [counted(b=7, d=17)], tmp_path, date(2025, 11, 3))
    path = keep_year("8c/2024", [counted(a=1)], tmp_path, date(2024, 11, 3))
    years, faults = earlier_years(tmp_path)
    assert [year.label for year in years] == ["8c/2024", "8b 2025"] and faults == () and path == tmp_path / "years" / "8c-2024.json"
    assert years[1].of(counted(a=2)) == ["0 of 24", "7 of 24", "0 of 24", "17 of 24", "0 of 24"]


def test_a_class_that_had_other_choices_stands_apart(tmp_path):
    now = counted(b=1)
    now.first[GONE] = 1
    then = replace(now, prediction=replace(now.prediction, choices=now.prediction.choices[:3]), first=Counter({texts_of(now)[0]: 3}))
    keep_year("8a 2024", [then], tmp_path, date(2024, 11, 3))
    path = keep_year("8b 2025", [counted(b=7)], tmp_path, date(2025, 11, 3))
    told = json.loads(path.read_text(encoding="utf-8"))
    told["first"]["00.warmer"] = {"It sang": 3, texts_of(now)[1]: 4}
    del told["offered"]  # as the files of earlier versions
    path.write_text(json.dumps(told), encoding="utf-8")
    fewer, reworded = earlier_years(tmp_path)[0]
    assert fewer.of(now) == reworded.of(now) == [""] * 6
    assert fewer.apart(now) == [(texts_of(now)[0], "3 of 3"), (texts_of(now)[1], "0 of 3"), (texts_of(now)[2], "0 of 3")]
    assert reworded.apart(now) == [("It sang", "3 of 7"), (texts_of(now)[1], "4 of 7")]


def test_the_same_choices_in_an_older_file_stand_side_by_side(tmp_path):
    path = keep_year("8b 2025", [counted(b=7)], tmp_path)
    told = json.loads(path.read_text(encoding="utf-8"))
    del told["offered"]
    path.write_text(json.dumps(told), encoding="utf-8")
    (year,), _ = earlier_years(tmp_path)
    assert year.of(counted(a=1))[1] == "7 of 7" and year.apart(counted(a=1)) == []


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"kind": "x", "class": "a", "kept": "b", "first": {}}', '{"first": {"00.warmer": {"a": "x"}}}'])
def test_a_damaged_file_is_named_and_passed_over(tmp_path, text):
    keep_year("8b 2025", [counted(b=7)], tmp_path)
    (tmp_path / "years" / "old.json").write_text(text, encoding="utf-8")
    years, faults = earlier_years(tmp_path)
    assert len(years) == 1 and faults == ("old.json in the folder years holds no counts that can be read. It is passed over.",)


def test_no_label_keeps_nothing(tmp_path):
    with pytest.raises(Fault, match="Write class and year first"):
        keep_year("  ", [counted(b=1)], tmp_path)
    assert not (tmp_path / "years").exists()


def test_the_desk_keeps_them_and_shows_them_beside_its_own(tmp_path, monkeypatch, handed_in):
    monkeypatch.chdir(tmp_path)
    keeping_at.cache_clear()
    (tmp_path / "class").symlink_to(handed_in(SIX))
    card = class_desk().predictions()
    assert press(card, "keep", label="8b 2026") == "Kept in years/8b 2026.json. The next class will see it beside its own."
    table = block_of(card, "table-0")
    assert table["head"][-1] == "8b 2026" and [row[-1] for row in table["rows"]][:5] == ["0 of 6", "0 of 6", "3 of 6", "3 of 6", "0 of 6"]
    kept = (tmp_path / "years" / "8b 2026.json").read_text(encoding="utf-8")
    assert not any(name in kept for name in SIX)


def test_the_desk_shows_a_year_with_other_choices_in_a_table_of_its_own(tmp_path, monkeypatch, handed_in):
    monkeypatch.chdir(tmp_path)
    keeping_at.cache_clear()
    (tmp_path / "class").symlink_to(handed_in(SIX))
    card = class_desk().predictions()
    press(card, "keep", label="8b 2025")
    path = tmp_path / "years" / "8b 2025.json"
    told = json.loads(path.read_text(encoding="utf-8"))
    told["first"]["00.warmer"], told["offered"]["00.warmer"], told["kept"] = {"Warmer": 9, "Cooler": 5}, ["Cooler", "Warmer", "Neither"], "2025-11-03"
    path.write_text(json.dumps(told), encoding="utf-8")
    card.redraw()
    apart = block_of(card, "apart-0-0")
    assert block_of(card, "table-0")["head"][-1] == "changed to it"
    assert apart["rows"] == [["Cooler", "5 of 14"], ["Warmer", "9 of 14"], ["Neither", "0 of 14"]]
    assert apart["caption"].startswith("8b 2025 (kept 2025-11-03) chose among other words. The choices of this card have changed since")
