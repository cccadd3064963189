"""The intake view: a file comes in, what is open is settled by choosing, and what is kept can be read again by the code shown."""

from pathlib import Path

import pytest

from kit import read_run
from kit.faults import Fault, IntakeFault
from kit.intake.read import look
from kit.intake.understanding import answers_to, code_for, with_answer
from kit.widgets.intake.bringing import NOTHING_YET, bring_in
from tests.widgets.parts import block_of, buttons_of, press, words

SIX = Path(__file__).parents[3] / "datasets" / "six-loggers"
KELVIN = SIX / "5-pipe-kelvin.txt"


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


def handed(view, path, name=None):
    view._pressed(view, {"press": "file", "number": "v-1", "values": {"name": name or path.name}}, [memoryview(path.read_bytes())])
    return view.reply["text"]


def test_a_file_is_settled_kept_unchanged_and_read_again_by_the_code_shown(folder):
    view = bring_in()
    assert handed(view, KELVIN) == "5-pipe-kelvin.txt is read. One thing is left open."
    assert block_of(view, "question")["text"] == "Which column is the treated vessel: 'Probe 1 [K]' or 'Probe 2 [K]'?"
    assert block_of(view, "answer")["options"] == [
        ["a", "Probe 1 [K]: 294.57, 295.44, 296.03, …"],
        ["b", "Probe 2 [K]: 294.16, 295, 295.6, …"],
    ]
    assert press(view, "answer", answer="") == "Choose one of the answers first."
    assert press(view, "answer", answer="b") == "One thing is left open."
    assert press(view, "back") == "Taken back."
    press(view, "answer", answer="a")
    assert press(view, "answer", answer="a") == "It is understood."
    assert press(view, "keep") == "Kept as 5-pipe-kelvin.txt."
    code = block_of(view, "code")["code"]
    assert code == 'run = read_run("5-pipe-kelvin.txt", treated="Probe 1 [K]", control="Probe 2 [K]")'
    made = {"read_run": read_run}
    exec(code, made)
    assert made["run"].readings.equals(view.run.readings)
    assert (folder / "5-pipe-kelvin.txt").read_bytes() == KELVIN.read_bytes()


def test_a_table_is_pasted_kept_and_read_again_by_the_code_shown(folder):
    view, table = bring_in(), "time (min)\ttreated (°C)\tcontrol (°C)\n0\t21.4\t21.0\n1\t22.0\t21.1\n2\t22.4\t21.2"
    assert press(view, "pasted", paste=" \n") == "Paste a table into the box first."
    assert press(view, "pasted", paste=f"\n{table}\r\n\n") == "The pasted table is read. It is understood."
    assert press(view, "keep") == "Kept as pasted-table.txt."
    assert view.code == 'run = read_run("pasted-table.txt")' and view.run.readings["treated"].tolist() == [21.4, 22.0, 22.4]
    assert (folder / "pasted-table.txt").read_text("utf-8") == f"{table}\n"
    assert press(view, "pasted", paste="no table") == "The pasted table is read. It can't be read as it is."


def test_what_was_understood_is_said_a_sentence_each():
    view = bring_in(SIX / "2-semicolon-clock.csv")
    assert block_of(view, "understood")["lines"][:2] == [
        "The text is not UTF-8: read it as Windows-1252.",
        "Cells are parted by semicolons; the readings begin in line 2, with a comma (21,4) as decimal mark.",
    ]
    assert block_of(view, "rows")["head"] == ["line", "Datum", "Behandelt (°C)", "Kontrolle (°C)"]
    assert block_of(view, "chart")["value"]["picture"]["summary"].startswith("Chart of the run 2-semicolon-clock, 21.5 minutes long.")


def test_what_was_kept_is_there_when_the_notebook_is_opened_again(folder):
    first = bring_in()
    handed(first, SIX / "1-comma-seconds.csv")
    press(first, "keep")
    again = bring_in()
    assert again.run.readings.equals(first.run.readings) and again.code == 'run = read_run("1-comma-seconds.csv")'
    (folder / "1-comma-seconds.csv").unlink()
    assert bring_in().brought is None


def test_no_file_of_the_same_name_is_ever_overwritten(folder):
    (folder / "1-comma-seconds.csv").write_text("something else")
    view = bring_in()
    handed(view, SIX / "1-comma-seconds.csv", "../1-comma-seconds.csv")
    assert press(view, "keep") == "Kept as 1-comma-seconds-2.csv." and view.code == 'run = read_run("1-comma-seconds-2.csv")'
    assert (folder / "1-comma-seconds.csv").read_text() == "something else"
    assert press(view, "keep") == "Kept as 1-comma-seconds-2.csv."


def test_a_bad_file_gets_its_sentence_and_no_keep(folder):
    (folder / "page.csv").write_text("<html><body>Log in</body></html>")
    view = bring_in()
    assert handed(view, folder / "page.csv") == "page.csv is read. It can't be read as it is."
    sentence = "page.csv, line 1: This is a web page saved under another name. Go back and download or export the table itself, as CSV."
    assert sentence in words(view)
    assert buttons_of(view) == ["pasted"]
    with pytest.raises(Fault) as caught:
        view.run
    assert str(caught.value) == NOTHING_YET


def test_a_path_with_its_keywords_needs_no_keeping():
    view = bring_in(str(KELVIN), treated=2, control=3)
    assert len(view.run.readings) == 130
    assert view.code == f'run = read_run("{KELVIN}", treated=2, control=3)'
    kept = block_of(view, "kept")["text"]
    assert kept == "1 file read from the disk. The next cells can use it: put the line below into the next cell."


def test_a_path_that_leaves_something_open_raises_its_question():
    view = bring_in(str(KELVIN))
    with pytest.raises(IntakeFault) as caught:
        view.run
    assert caught.value.keyword == "treated"
    press(view, "answer", answer="a")
    press(view, "answer", answer="a")
    assert view.run.readings.equals(read_run(KELVIN, treated=2, control=3).readings)


def test_a_keyword_that_read_run_lacks_is_named():
    with pytest.raises(Fault) as caught:
        bring_in("a.csv", colour="red")
    expected = "bring_in knows no colour=. It takes those of read_run: treated, control, room, gas, light, time, unit, clock and decimal."
    assert str(caught.value) == expected


def test_a_full_disk_is_said_and_nothing_counts_as_kept(monkeypatch):
    def refuse(*_):
        raise OSError(28, "No space left on device")

    view = bring_in()
    handed(view, SIX / "1-comma-seconds.csv")
    monkeypatch.setattr("kit.coursework.filing.write_atomically", refuse)
    assert press(view, "keep") == (
        "1-comma-seconds.csv could not be written beside the notebook (No space left on device). Make room there, then press Keep again."
    )
    assert block_of(view, "code") is None


def test_a_sheet_of_a_workbook_is_chosen_like_anything_else(folder):
    from openpyxl import Workbook

    book = Workbook()
    for sheet, start in ((book.active, 21.0), (book.create_sheet("second try"), 25.0)):
        for row in (["time (s)", "treated (°C)", "control (°C)"], *([10 * k, start + k / 10, start] for k in range(5))):
            sheet.append(row)
    book.save(folder / "source.xlsx")
    view = bring_in()
    handed(view, folder / "source.xlsx", "book.xlsx")
    assert block_of(view, "answer")["options"] == [["a", "Sheet"], ["b", "second try"]]
    press(view, "answer", answer="b")
    press(view, "keep")
    assert view.code == 'run = read_run("book.xlsx#second try")' and view.run.readings["treated"].iloc[0] == 25
    assert bring_in().run.readings.equals(read_run("book.xlsx#second try").readings)


OPEN = [
    ("minute\ttreated_degC\tcontrol_degC\n05/10/2026 10:41\t21.4\t21.0\n05/11/2026 10:42\t21.5\t21.1\n", ["day first", "month first"]),
    ("time,treated,control\n0,21.4,21.0\n60,21.5,21.1\n120,21.6,21.2\n", ["s", "min", "h"]),
    ("time (s),treated,control\n0,21.4,21.0\n60,21.5,21.1\n120,21.6,21.2\n", ["degC", "degF", "K"]),
    ("time (s);treated (°C);control (°C);CO2 (ppm)\n0;21;21;1,204\n60;21;21;1,205\n120;21;21;1,206\n", [",", "."]),
]


@pytest.mark.parametrize("text, values", OPEN, ids=[",".join(values) for _, values in OPEN])
def test_each_kind_of_open_question_brings_its_answers(text, values):
    reading = look(text)
    answers = answers_to(reading, {})
    assert [value for value, _ in answers] == values
    for value, _ in answers:
        settled = look(text, **with_answer({}, reading.question.keyword, value))
        assert not settled.question or str(settled.question) != str(reading.question)


def test_columns_without_a_name_of_their_own_are_answered_by_number():
    reading = look("time (s),T (°C),T (°C)\n0,21.4,21.0\n60,21.5,21.1\n120,21.6,21.2\n")
    assert answers_to(reading, {}) == ((2, "T (°C): 21.4, 21.5, 21.6, …"), (3, "T (°C): 21, 21.1, 21.2, …"))


def test_the_code_is_python_whatever_the_names():
    keywords = {"treated": 'say "warm"', "control": "back\\slash", "clock": ["min", 40], "unit": None}
    code = code_for(["a.csv", Path("b/c.csv")], keywords)
    assert code == """run = read_run(["a.csv", "b/c.csv"], treated='say "warm"', control='back\\\\slash', clock=["min", 40])"""
    compile(code, "shown", "exec")
