"""The class's board: its numbers are those of `class_effect`, both answers stand, choices are kept, and the thirty groups are what the bench made."""

import json
import shutil
from dataclasses import replace

import numpy as np
import pytest

from kit import board_view, choose_class, class_effect, example_class, example_run, Fault, read_class, Windows
from kit.coursework import class_choices, ClassChoices, keep_marks, remember
from kit.widgets.board.answering import ONE_MORE
from kit.widgets.board.board import of_the_bundled
from kit.widgets.board.choosing import BUNDLED
from kit.widgets.board.members import class_from_runs, JOINED
from kit.widgets.board import thirty as thirty_module
from kit.widgets.board.thirty import measured, PARTS, rows, run_of, thirty, WINDOWS
from kit.widgets.cards import keeping_of
from tests.widgets.invented import invented_run
from tests.widgets.parts import move, options_of, press, words

WHY = "The lamp was knocked."


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def board():
    return board_view()


def means(answer):
    return {each["key"]: each for each in answer["means"]}


def test_the_eight_are_those_of_the_bundled_class_with_the_windows_that_were_agreed(board):
    effect = class_effect(example_class(), WINDOWS, thermometers="own")
    assert means(board.answer)["class"]["value"] == pytest.approx(effect.mean.value, abs=1e-4)
    assert means(board.answer)["next"]["low"] == pytest.approx(effect.next_group.low, abs=1e-3)
    assert [each["value"] for each in board.answer["rows"]] == pytest.approx([share.warming.value for share in effect.shares], abs=1e-4)


@pytest.mark.parametrize("run", ["Slate", "marble-swapped", "Gypsum", "andesite-swapped"])
def test_what_is_kept_of_a_run_is_what_the_kit_finds_in_it(run):
    row = next(each for each in rows() if each["run"] == run)
    found = measured(row)
    assert {name: float(row[name]) for name in found} == pytest.approx(found, rel=1e-4, abs=1e-4) and set(PARTS) < set(found)


def test_half_of_thirty_groups_swapped_and_each_run_can_be_opened_again():
    whole = thirty()
    assert len(whole.members) == 30 and sum(bool(each.swapped) for each in whole.members) == 15
    assert {run_of(name).kind for name in ("Basalt", "flint-swapped", "Tuff")} == {"simulated"}


def test_a_group_left_out_stays_in_sight_and_both_answers_stand(board):
    before = means(board.answer)["class"]
    answer = move(board, left_out={"Slate": ""})
    assert "Write why Slate is left out." in answer["sentence"]
    answer = move(board, left_out={"Slate": WHY})
    row = next(each for each in answer["rows"] if each["name"] == "Slate")
    assert row["out"] and row["why"] == WHY and means(answer)["whole"]["value"] == before["value"] != means(answer)["class"]["value"]
    assert "Write why" not in answer["sentence"] and "With Slate it would be" in answer["sentence"]
    assert any(WHY in cell for row in answer["table"]["rows"] for cell in row)


def test_choices_are_kept_with_their_reasons_and_taken_up_again(board):
    move(board, left_out={"Slate": ""})
    move(board, left_out={"Slate": WHY})
    assert class_choices(keeping_of("09").kept) == (ClassChoices(board.class_.name, (("Slate", WHY),)),)
    assert board_view().values["left_out"] == {"Slate": WHY}
    board_view(truth=True).move(left_out={})
    assert class_choices(keeping_of("09").kept, board.class_.name)[0].left_out == (("Slate", WHY),)


def test_more_groups_shrink_the_bar_beside_the_truth_and_the_swap_pairs_bring_it_home():
    """A fault that all share does not average out (GUM, JCGM 100:2008, E.3: systematic effects that stay the same from reading to reading)."""
    view, truth = board_view(truth=True), thirty().truth
    few, many = (means(move(view, groups=groups, truth="open"))["class"] for groups in (8, 30))
    assert many["high"] - many["low"] < (few["high"] - few["low"]) / 2
    assert truth < few["low"] and truth < many["low"] and abs(many["value"] - truth) > 0.75 * abs(few["value"] - truth)
    home = move(view, pairs=JOINED)
    assert means(home)["class"]["low"] <= truth <= means(home)["class"]["high"] and "inside the class's range" in home["sentence"]
    assert ONE_MORE in home["sentence"] and not means(home)["next"]["low"] <= means(home)["class"]["value"] <= means(home)["next"]["high"]


def test_the_truth_stays_closed_until_it_is_opened(board):
    view = board_view(truth=True)
    assert view.answer["truth"] is None and board.answer["truth"] is None and "truth" not in board.values
    assert "1.49" not in json.dumps({**view.answer, "rows": []})
    assert move(view, truth="open")["truth"]["words"] == f"the truth: {of_the_bundled().texts['truth']}"


def test_the_rows_can_stand_in_several_orders_and_say_by_what(board):
    by_size = [each["value"] for each in move(board, order="size")["rows"]]
    assert by_size == sorted(by_size)
    assert [each["fact"] for each in move(board, order="time")["rows"]] == sorted(each["fact"] for each in board.answer["rows"])
    assert move(board, order="mouth")["rows"][0]["fact"] == "6.2 cm"
    sides = [each["fact"] for each in move(board_view(truth=True), order="side", groups=30)["rows"]]
    assert sides == ["both"] * 15 + ["usual"] * 15


def test_a_wider_mouth_goes_along_with_more_warming():
    """As the lesson's hint says; the reason is in the vessel's model: a wider mouth lets more warm air out until the gas lies in it."""
    members = thirty().members
    known = [(each.facts["mouth"], each.pooled(JOINED).value) for each in members if each.swapped]
    assert np.corrcoef(*zip(*known))[0, 1] > 0.8


def test_few_groups_have_no_range_and_nobody_left_is_said(board):
    names = [each["name"] for each in board.answer["rows"]]
    answer = move(board, left_out=dict.fromkeys(names[2:], WHY))
    assert means(answer)["class"]["low"] is None and means(answer)["class"]["words"].endswith("(no range yet)")
    json.dumps(answer, allow_nan=False)
    answer = move(board, left_out=dict.fromkeys(names, WHY))
    assert answer["means"] == [] and answer["sentence"] == "Nobody is left. Give one group its tick again."


def test_a_stranger_can_not_be_left_out(board):
    with pytest.raises(Fault, match="'Granite', who is not on this board"):
        board.move(left_out={"Granite": WHY})


def test_a_suspect_run_opens_with_its_note_and_its_course(board):
    opened = move(board, opened="Slate")["opened"]
    assert "knocked" in opened["note"] and opened["lines"][0]["name"] == "Slate" and opened["across"] == [0, 21.5]
    assert next(each for each in board.answer["rows"] if each["name"] == "Slate")["far"]
    assert move(board, opened="")["opened"] is None


def own_class(folder):
    for name in ("basalt", "basalt-swapped", "chert-early", "dolomite", "pumice-shaded"):
        run = example_run(name)
        (folder / "ours" / name.split("-")[0]).mkdir(parents=True, exist_ok=True)
        run.save(folder / "ours" / name.split("-")[0] / f"{name}.csv")


def test_a_class_of_ones_own_comes_from_a_folder_with_runs_of_a_group_together(folder):
    own_class(folder)
    card = choose_class("09.class")
    assert list(options_of(card)) == [BUNDLED, "ours"] and card.runs is None
    assert press(card, "choose", **{"class": "ours"}) == "From here on this page works on 5 runs of the class ours."
    view = board_view(card.runs)
    assert sorted(each["name"] for each in view.answer["rows"]) == ["basalt", "chert", "dolomite", "pumice"]
    assert choose_class("09.class").runs.name == "ours"
    move(view, turned={"basalt-swapped": ""}, opened="basalt")
    assert view.answer["opened"]["runs"] == [{"name": "basalt-swapped", "turned": True}, {"name": "basalt", "turned": False}]
    assert [each["turned"] for each in view.answer["rows"][0]["runs"]] == [True, False]
    assert class_choices(keeping_of("09").kept, "ours")[0].turned == ("basalt-swapped",) == tuple(board_view(card.runs).values["turned"])


def test_rows_of_ones_own_class_stand_by_mouths_that_were_written_and_by_the_clocks_of_the_records(folder):
    own_class(folder)
    runs = read_class("ours", progress=lambda _: None)
    assert "time" not in _orders(board_view(runs))  # the kit's own files show no clock
    clocks = {"basalt": 615.0, "dolomite": 571.4}
    timed = replace(runs, runs=tuple(replace(run, clock_min=clocks.get(run.name)) for run in runs.runs))
    view = board_view(timed)
    assert list(_orders(view)) == ["name", "size", "side", "time", "mouth"]
    by_time = [(row["name"], row["fact"]) for row in move(view, order="time")["rows"]]
    assert by_time == [("dolomite", "09:31"), ("basalt", "10:15"), ("chert", "no time"), ("pumice", "no time")]
    by_mouth = move(view, order="mouth", mouths={"pumice": "6,2", "chert": "7 cm", "basalt": "wide"}, opened="chert")
    assert [row["fact"] for row in by_mouth["rows"]] == ["6.2 cm", "7 cm", "not written", "not written"] and by_mouth["opened"]["mouth"] == "7 cm"
    assert board_view(timed).values["mouths"] == {"chert": "7 cm", "basalt": "wide", "pumice": "6,2"}


def _orders(view):
    return view._grips["order"].options


def test_a_run_without_a_number_is_named_with_its_reason(folder):
    own_class(folder)
    (folder / "ours" / "torn.csv").write_text("not a record at all")
    press(card := choose_class("09.class"), "choose", **{"class": "ours"})
    answer = board_view(card.runs).answer
    assert "Without a number: torn.csv" in answer["sentence"] and [row for row in answer["table"]["rows"] if row[0] == "torn.csv" and len(row[2]) > 20]


def test_a_swapped_run_that_is_named_counts_as_one_in_the_mean(folder):
    own_class(folder)
    runs = read_class("ours", progress=lambda _: None)
    shown = move(board_view(runs), turned={"basalt-swapped": "", "pumice-shaded": ""})
    effect = class_effect(runs, swapped=["basalt-swapped", "pumice-shaded"], thermometers="own")
    assert means(shown)["class"]["value"] == pytest.approx(effect.mean.value) and means(shown)["class"]["low"] == pytest.approx(effect.mean.low)


def test_a_class_that_went_away_is_said_and_the_bundled_one_stands_in(folder):
    keeping_of("09").add("09.class", "class", source="gone")
    card = choose_class("09.class")
    assert card.runs is None and "gone can't be read" in card._trouble
    (folder / "ours").mkdir()
    (folder / "ours" / "one.csv").write_text("x")
    assert "gone can't be read" in words(choose_class("09.class"))


def test_all_of_ones_own_runs_make_a_class_with_the_windows_that_were_marked(folder):
    for name, seed in (("one", 1), ("two", 2)):
        invented_run(400, 20, name=name).save(folder / f"{name}.csv")
        remember(f"{name}.csv", {})
    card = choose_class("09.class")
    press(card, "choose", **{"class": "own"})
    marked = Windows((5, 6), (6, 7), (15, 16))
    keep_marks(card.runs["one"], marked)
    alone = {name: class_effect([card.runs[name]], marked).mean.value for name in ("one", "two")}
    shown = [{each["name"]: each["value"] for each in board_view(card.runs, windows=told).answer["rows"]} for told in (None, {"two": marked})]
    assert shown[0]["one"] == shown[1]["one"] == pytest.approx(alone["one"]) and shown[1]["two"] == pytest.approx(alone["two"])


def test_runs_of_which_none_gives_a_number_are_a_fault():
    with pytest.raises(Fault):
        class_from_runs([])


def test_a_class_that_reads_fahrenheit_sees_the_board_in_it(folder):
    """1 °C of difference is 1.8 °F (NIST SP 811, B.8)."""
    before = move(board_view(truth=True), truth="open", opened="Slate")
    (folder / "class-settings.toml").write_text('[show]\ntemperature = "°F"\n', encoding="utf-8")
    after = move(board_view(truth=True), truth="open", opened="Slate")
    assert after["unit"] == "°F" and "°C" not in json.dumps(after, ensure_ascii=False)
    for name in ("means", "rows"):
        assert [each["value"] for each in after[name]] == pytest.approx([1.8 * each["value"] for each in before[name]])
    assert after["truth"]["at"] == pytest.approx(1.8 * before["truth"]["at"]) and after["span"] == pytest.approx([1.8 * end for end in before["span"]])
    assert after["opened"]["lines"][0]["y"][-1] == pytest.approx(1.8 * before["opened"]["lines"][0]["y"][-1], abs=0.002)


def numbers():
    return [{name: float(row[name]) for name in ("truth_c", "value", *PARTS)} for row in rows()]


def test_what_is_kept_can_be_written_anew_and_comes_out_the_same(tmp_path, monkeypatch):
    few = tmp_path / "few.csv"
    few.write_text("\n".join(thirty_module.RECORD.read_text(encoding="utf-8").splitlines()[:3]) + "\n", encoding="utf-8")
    monkeypatch.setattr(thirty_module, "RECORD", few)
    before = numbers()
    thirty_module.renew()
    assert [pytest.approx(each, rel=1e-4, abs=1e-4) for each in before] == numbers() and len(before) == 2


def test_a_zip_beside_the_page_is_offered_and_one_that_can_not_be_read_is_said(folder):
    own_class(folder)
    shutil.make_archive("zipped", "zip", folder / "ours")
    (folder / "broken.zip").write_bytes(b"no zip at all")
    card = choose_class("09.class")
    assert {"ours", "zipped.zip", "broken.zip"} < set(options_of(card))
    assert "5 runs of the class" in press(card, "choose", **{"class": "zipped.zip"}) and len(board_view(card.runs).answer["rows"]) == 4
    assert "From here on" not in press(card, "choose", **{"class": "broken.zip"}) and len(card.runs) == 5
