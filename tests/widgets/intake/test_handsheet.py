"""The sheet for a run read by eye: every entry is on the disk at once, slips are questioned and kept, and it gives a run."""

import pytest

from kit import hand_sheet, read_run
from kit.faults import Fault
from kit.intake.byhand import doubts, write_sheet
from tests.widgets.parts import block_of, press

TYPED = [["0", "21,4", "21"], ["1", "23,0", "22.5"], ["2", "24,5", "24"], ["3", "", ""], ["4", "", ""]]


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_every_entry_is_on_the_disk_at_once_and_back_on_reopening(folder):
    sheet = hand_sheet("slate")
    for upto in (1, 2, 3):
        assert press(sheet, "entered", rows=TYPED[:upto]) == "Kept in slate.csv."
        assert (folder / "slate.csv").read_text("utf-8").count("\n") == upto + 1
    assert (folder / "slate.csv").read_text("utf-8") == "elapsed_min,treated_degC,control_degC\n0,21.4,21\n1,23.0,22.5\n2,24.5,24\n"
    assert block_of(hand_sheet("slate"), "sheet")["value"]["rows"] == [["0", "21.4", "21"], ["1", "23.0", "22.5"], ["2", "24.5", "24"]]


def test_the_sheet_gives_a_run_and_the_line_that_reads_it():
    sheet = hand_sheet("slate")
    press(sheet, "entered", rows=TYPED)
    assert sheet.run.readings["treated"].tolist() == [21.4, 23.0, 24.5] and sheet.run.minutes.tolist() == [0, 1, 2]
    assert sheet.code == block_of(sheet, "code")["code"] == 'run = read_run("slate.csv")'
    assert read_run("slate.csv").readings.equals(sheet.run.readings)


def test_fahrenheit_comes_out_in_celsius():
    sheet = hand_sheet("slate", unit="degF")
    press(sheet, "entered", rows=[["0", "68", "68"], ["1", "77", "68"]])
    assert sheet.run.readings["treated"].tolist() == pytest.approx([20, 25])  # 68 °F = 20 °C, 77 °F = 25 °C: NIST SP 811, B.8


def test_a_missing_reading_stays_missing():
    sheet = hand_sheet()
    press(sheet, "entered", rows=[["0", "21", "21"], ["1", "", "21.5"], ["2", "22", "22"]])
    assert sheet.run.readings["treated"].isna().tolist() == [False, True, False]


ASKED = "Is it a slip? If not, leave it: it counts."
QUESTIONED = [
    ([["0", "21", "21"], ["1", "214", "21"]], f"Minute 1, treated: 214 °C is unusual under a lamp. {ASKED}"),
    ([["0", "21", "21"], ["1", "21", "31"]], f"Minute 1, control: 31 °C is a leap from the reading before. {ASKED}"),
    (
        [["0", "21", "21"], ["1", "21", "26"], ["2", "21", "21"]],
        f"Minute 1, control: 26 °C is far above both readings beside it. {ASKED}",
    ),
]


@pytest.mark.parametrize("rows, question", QUESTIONED, ids=["size", "leap", "spike"])
def test_an_unlikely_value_is_questioned_and_kept(rows, question):
    sheet = hand_sheet()
    press(sheet, "entered", rows=rows)
    assert block_of(sheet, "doubts")["lines"] == [question]
    assert [float(cell) for _, cell, _ in rows] == sheet.run.readings["treated"].tolist()


REFUSED = [
    ([["0", "2l.4", "21"], ["1", "21", "21"]], "Minute 0, treated: '2l.4' is no number. Type it again."),
    ([["0", "21", "21"], ["0", "21", "21"]], "Row 2: minute 0 comes after minute 0. Times must run forward."),
    ([["0", "21", "21"], ["", "21", "21"]], "Row 2: '' is no minute. Type the minute of this reading as a number."),
]


@pytest.mark.parametrize("rows, sentence", REFUSED, ids=["word", "order", "no minute"])
def test_what_has_to_be_put_right_is_kept_as_typed_and_named(rows, sentence):
    sheet = hand_sheet()
    press(sheet, "entered", rows=rows)
    assert block_of(sheet, "doubts")["lines"] == [sentence] and block_of(sheet, "run")["text"] == f"Not a run yet. {sentence}"
    assert block_of(hand_sheet(), "sheet")["value"]["rows"] == rows
    with pytest.raises(Fault) as caught:
        sheet.run
    assert str(caught.value) == sentence


def test_a_usual_run_is_not_questioned():
    warming = [[str(minute), f"{21 + 9 * (1 - 0.7**minute):.1f}", f"{21 + 8 * (1 - 0.7**minute):.1f}"] for minute in range(20)]
    assert doubts(warming) == []


def test_a_formula_never_reaches_a_spreadsheet(folder):
    write_sheet(folder / "a.csv", [("0", "=1+1", "-2.5")])
    assert (folder / "a.csv").read_text("utf-8").splitlines()[1] == "0,'=1+1,-2.5"


OTHERS = ["elapsed_s,treated_degC,control_degC\n", "\x00\xff", "", "elapsed_min,treated_degC,control_degC\n1,2\n"]


@pytest.mark.parametrize("content", OTHERS)
def test_another_file_of_that_name_is_left_alone(folder, content):
    (folder / "slate.csv").write_text(content, "utf-8")
    with pytest.raises(Fault) as caught:
        hand_sheet("slate")
    assert str(caught.value) == "slate.csv is there already and is no hand sheet in °C. Give the sheet another name."
    assert (folder / "slate.csv").read_text("utf-8") == content


def test_an_unknown_unit_is_named():
    with pytest.raises(Fault) as caught:
        hand_sheet(unit="K")
    assert str(caught.value) == "A hand sheet has no unit 'K'. Choose 'degC' or 'degF'."
