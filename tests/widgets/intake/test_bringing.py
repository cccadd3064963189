"""The intake view: a file comes in, what is open is settled by choosing, and what is kept can be read again by the code shown."""

from pathlib import Path

import pytest

from kit import example_run, paired_effect, read_run, suggest_windows
from kit.faults import Choice, Fault, IntakeFault, Question
from kit.intake.read import look
from kit.intake.asking import code_for, with_answers
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


def answer(view, start, words):
    """Choose the answer that begins with `words` to the question that begins with `start`, as the browser does."""
    block = next(each for each in view.blocks if each["is"] == "picks" and each["legend"].startswith(start))
    place = next(place for place, text in block["options"] if text.startswith(words))
    return press(view, "answer", question=block["key"], answer=place)


def asked_by(view):
    """{question: (answers, place of the chosen one)} of the form."""
    return {block["legend"]: ([text for _, text in block["options"]], block["value"]) for block in view.blocks if block["is"] == "picks"}


TREATED, CONTROL = "Which column is the treated vessel?", "Which column is the control vessel?"
PROBES = ["Probe 1 [K]: 294.57, 295.44, 296.03, …", "Probe 2 [K]: 294.16, 295.00, 295.60, …"]


def test_a_file_is_settled_kept_unchanged_and_read_again_by_the_code_shown(folder):
    view = bring_in()
    assert handed(view, KELVIN) == "5-pipe-kelvin.txt is read. 2 things are open."
    assert asked_by(view) == {TREATED: (PROBES, ""), CONTROL: (PROBES, "")}
    assert answer(view, TREATED, "Probe 2") == "It is understood."
    assert asked_by(view) == {TREATED: (PROBES, "1")} and block_of(view, "rows")["head"][2:] == ["control: Probe 1 [K]", "treated: Probe 2 [K]"]
    assert answer(view, TREATED, "Probe 1") == "It is understood."
    assert press(view, "keep") == "Kept as 5-pipe-kelvin.txt."
    code = block_of(view, "code")["code"]
    assert code == 'run = read_run("5-pipe-kelvin.txt", treated="Probe 1 [K]")'
    made = {"read_run": read_run}
    exec(code, made)
    assert made["run"].readings.equals(view.run.readings)
    assert (folder / "5-pipe-kelvin.txt").read_bytes() == KELVIN.read_bytes()


def test_all_that_is_open_stands_on_one_form_and_the_preview_follows():
    view = bring_in()
    assert press(view, "pasted", paste="t,T1,T2,T3\n0,21.4,21.0,20.5\n1,22.0,21.1,20.5\n2,22.4,21.2,20.6") == (
        "The pasted table is read. 4 things are open."
    )
    assert list(asked_by(view)) == ["These times are numbers without a unit.", TREATED, CONTROL, "No unit is written for 'T1', 'T2' and 'T3'."]
    assert answer(view, CONTROL, "T1") == "3 things are open." and asked_by(view)[CONTROL][1] == "0"
    assert answer(view, TREATED, "T3") == "2 things are open."
    answer(view, "These times", "minutes")
    assert answer(view, "No unit", "degrees Celsius") == "It is understood."
    assert view.brought.keywords == {"clock": "min", "treated": "T3", "control": "T1", "unit": "degC"}
    assert block_of(view, "rows")["rows"][1] == ["3", "60", "22", "20.5"]
    assert answer(view, CONTROL, "T3") == "It can't be read as it is."
    assert "can't be both" in block_of(view, "fault")["text"] and asked_by(view)[CONTROL][1] == "2"
    assert answer(view, CONTROL, "T2") == "It is understood."


def test_a_table_is_pasted_kept_and_read_again_by_the_code_shown(folder):
    view, table = bring_in(), "time (min)\ttreated (°C)\tcontrol (°C)\n0\t21.4\t21.0\n1\t22.0\t21.1\n2\t22.4\t21.2"
    assert press(view, "pasted", paste=" \n") == "Paste a table into the box first."
    assert press(view, "pasted", paste=f"\n{table}\r\n\n") == "The pasted table is read. It is understood."
    assert press(view, "keep") == "Kept as pasted-table.txt."
    assert view.code == 'run = read_run("pasted-table.txt")' and view.run.readings["treated"].tolist() == [21.4, 22.0, 22.4]
    assert (folder / "pasted-table.txt").read_text("utf-8") == f"{table}\n"
    assert press(view, "pasted", paste="no table") == "The pasted table can't be read as it is."


def test_what_was_understood_is_said_a_sentence_each():
    view = bring_in(SIX / "2-semicolon-clock.csv")
    assert block_of(view, "understood")["lines"][:2] == [
        "The text is not UTF-8: read it as Windows-1252.",
        "Cells are parted by semicolons; the readings begin in line 2, with a comma (21,4) as decimal mark.",
    ]
    assert block_of(view, "rows")["head"] == ["line", "time in s: Datum", "treated: Behandelt (°C)", "control: Kontrolle (°C)"]
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
    assert handed(view, folder / "page.csv") == "page.csv can't be read as it is."
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
    assert kept == "1 file read from the disk. The line below reads it in any cell."


def test_a_path_that_leaves_something_open_raises_its_question():
    view = bring_in(str(KELVIN))
    with pytest.raises(IntakeFault) as caught:
        view.run
    assert caught.value.keyword == "treated"
    answer(view, TREATED, "Probe 1")
    assert view.run.readings.equals(read_run(KELVIN, treated=2, control=3).readings)


def test_a_keyword_that_read_run_lacks_is_named():
    with pytest.raises(Fault) as caught:
        bring_in("a.csv", colour="red")
    expected = "bring_in knows no colour=. It takes those of read_run: treated, control, room, gas, light, time, unit, clock, decimal and sheet."
    assert str(caught.value) == expected


def test_a_full_disk_is_said_and_nothing_counts_as_kept(monkeypatch):
    def refuse(*_):
        raise OSError(28, "No space left on device")

    view = bring_in()
    handed(view, SIX / "1-comma-seconds.csv")
    monkeypatch.setattr("kit.coursework.runs.filing.write_atomically", refuse)
    assert press(view, "keep") == (
        "1-comma-seconds.csv could not be written beside the notebook (No space left on device). Make room there, then press Keep again."
    )
    assert block_of(view, "code") is None


@pytest.mark.parametrize("titles", [["Sheet", "second try"], ["Ann's run", "Ben"]])
def test_a_sheet_of_a_workbook_is_chosen_like_anything_else(folder, titles):
    from openpyxl import Workbook

    book = Workbook()
    book.active.title = titles[0]
    for sheet, start in ((book.active, 21.0), (book.create_sheet(titles[1]), 25.0)):
        for row in (["time (s)", "treated (°C)", "control (°C)"], *([10 * k, start + k / 10, start] for k in range(5))):
            sheet.append(row)
    book.save(folder / "source.xlsx")
    view = bring_in()
    handed(view, folder / "source.xlsx", "book.xlsx")
    assert asked_by(view) == {"Which sheet holds the run?": (titles, "")}
    answer(view, "Which sheet", titles[1])
    press(view, "keep")
    assert view.code == f'run = read_run("book.xlsx", sheet="{titles[1]}")' and view.run.readings["treated"].iloc[0] == 25
    assert bring_in().run.readings.equals(read_run(f"book.xlsx#{titles[1]}").readings)


OPEN = [
    ("minute\ttreated_degC\tcontrol_degC\n05/10/2026 10:41\t21.4\t21.0\n05/11/2026 10:42\t21.5\t21.1\n", ["day first", "month first"]),
    ("time,treated (°C),control (°C)\n0,21.4,21.0\n60,21.5,21.1\n120,21.6,21.2\n", ["s", "min", "h", "ms", "d"]),
    ("time (s),treated,control\n0,21.4,21.0\n60,21.5,21.1\n120,21.6,21.2\n", ["degC", "degF", "K"]),
    ("time (s);treated (°C);control (°C);CO2 (ppm)\n0;21;21;1,204\n60;21;21;1,205\n120;21;21;1,206\n", [",", "."]),
]


@pytest.mark.parametrize("text, values", OPEN, ids=[",".join(values) for _, values in OPEN])
def test_each_kind_of_open_question_brings_its_answers(text, values):
    reading = look(text)
    (question,) = reading.questions
    assert [choice.value for choice in question.choices] == values
    for place in range(len(values)):
        assert look(text, **with_answers({}, [(question, place)])).run


def test_columns_without_a_name_of_their_own_are_answered_by_number():
    question = look("time (s),T (°C),T (°C)\n0,21.4,21.0\n60,21.5,21.1\n120,21.6,21.2\n").questions[0]
    assert [(choice.value, str(choice)) for choice in question.choices] == [(2, "T (°C): 21.4, 21.5, 21.6, …"), (3, "T (°C): 21.0, 21.1, 21.2, …")]


def test_rewording_a_sentence_changes_no_button(monkeypatch):
    before = asked_by(bring_in(str(KELVIN)))
    monkeypatch.setattr(Question, "advice", property(lambda question: "Which 'one' do you 'mean'?"))
    monkeypatch.setattr(IntakeFault, "_advice", lambda fault: "treated='never' control='this'")
    assert asked_by(bring_in(str(KELVIN))) == before and len(before) == 2
    assert str(look(str(KELVIN)).question).endswith("treated='never' control='this'")


def test_a_fault_of_any_wording_brings_its_choices_as_they_are():
    fault = IntakeFault("Which?", keyword="sheet", choices=[Choice("Ann's run"), Choice('Ben "B"', "the second")])
    assert [choice.value for choice in fault.questions[0].choices] == ["Ann's run", 'Ben "B"']
    assert str(fault) == """Which? Say sheet="Ann's run" or sheet='Ben "B"' (the second)."""


def test_the_code_is_python_whatever_the_names():
    keywords = {"treated": 'say "warm"', "control": "back\\slash", "clock": ["min", 40], "unit": None}
    code = code_for(["a.csv", Path("b/c.csv")], keywords)
    assert code == """run = read_run(["a.csv", "b/c.csv"], treated='say "warm"', control='back\\\\slash', clock=["min", 40])"""
    compile(code, "shown", "exec")


def leaping(folder):
    """A bundled run with a leap of 6 °C in the treated vessel, in the response, as a file of its own."""
    readings = example_run("basalt").readings.copy()
    readings.iloc[-60, 0] += 6
    path = folder / "leap.csv"
    readings[["treated", "control"]].round(2).rename(columns={"treated": "treated (°C)", "control": "control (°C)"}).to_csv(path, index_label="time (s)")
    return path


def effects_of(view):
    return [words for _, words in block_of(view, "effects")["pairs"]]


def test_an_odd_place_is_decided_with_a_reason_and_the_effect_shown_both_ways(folder):
    view = bring_in()
    handed(view, leaping(folder))
    assert "leaps by 6" in block_of(view, "place")["text"] and not [each for each in view.blocks if each["key"] == "effects"]
    assert press(view, "decide") == "Choose one of the answers first."
    assert press(view, "decide", choice="out", reason=" ") == "Say why first. A reader of your report will ask."
    assert press(view, "decide", choice="out", reason="the lead was touched") == ""
    raw, decided = view.brought.reading.run, view.brought.run
    windows = suggest_windows(decided)
    assert effects_of(view) == [str(paired_effect(each, windows)) for each in (raw, decided)]
    assert raw.readings.treated.notna().all() and decided.readings.treated.isna().sum() == 1
    assert decided.remarks[-1].endswith(" and back. Reason: the lead was touched.") and decided.remarks[-1] in block_of(view, "understood")["lines"]
    press(view, "keep")
    lines = block_of(view, "code")["code"]
    assert lines.splitlines()[1] == "run = run.decide({1: ('leave out', 'the lead was touched')})"
    made = {"read_run": read_run}
    exec(lines, made)
    assert made["run"].readings.equals(view.run.readings) and made["run"].remarks == view.run.remarks
    assert bring_in().run.readings.equals(view.run.readings)
    press(view, "again")
    assert view.run.readings.treated.notna().all() and bring_in().run.readings.treated.notna().all()


def test_a_place_that_is_kept_says_why_in_the_remarks(folder):
    view = bring_in(leaping(folder))
    press(view, "decide", choice="keep", reason="the lamp came on")
    assert view.run.remarks[-1].startswith("Kept: treated, at ") and view.run.remarks[-1].endswith(" Reason: the lamp came on.")
    assert view.run.readings.treated.notna().all()


@pytest.mark.parametrize("choice", ["flag", "keep"])
def test_a_place_kept_without_a_reason_stands_in_the_code_too(folder, choice):
    view = bring_in()
    handed(view, leaping(folder))
    assert press(view, "decide", choice=choice, reason="") == ""
    press(view, "keep")
    lines = block_of(view, "code")["code"]
    assert lines.splitlines()[1] == f"run = run.decide({{1: ('{choice}', '')}})"
    made = {"read_run": read_run}
    exec(lines, made)
    assert made["run"].remarks == view.run.remarks and made["run"].remarks[-1].startswith("Kept")
