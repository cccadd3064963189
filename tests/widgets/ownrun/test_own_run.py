"""The page for one's own run: what each card says and does, what is kept, and that the code shown gives the same."""

from datetime import datetime, timedelta

import pytest

import kit
from kit import compare, own_run, paired_effect, read_run, reference_run, suggest_windows
from kit.coursework.runs.marks import keep_marks
from kit.coursework.runs.runs import own_runs
from kit.records.windows import Windows
from kit.widgets.cards.keeping import keeping_at
from kit.widgets.marker.marker import WindowMarker
from tests.widgets.invented import invented_run
from tests.widgets.parts import block_of, buttons_of, options_of, press, words

STEPS = ("runs", "bring_in", "odd_places", "steady", "mark", "measure", "curve", "compare", "add_to_class", "causes", "note", "report")
NO_RUN, NO_EFFECT = "There is no run yet. Open one of yours, or bring one in.", "There is no effect yet. Place the windows, then keep the effect."


def table(run, leap_at_s=None):
    """A run as a file that leaves nothing open, perhaps with one reading of the control 25 °C too high."""
    rows = [f"{start + timedelta(seconds=s):%Y-%m-%d %H:%M:%S},{a:.3f},{b + 25 * (s == leap_at_s):.3f}" for s, a, b in readings(run)]
    return "\n".join(["time,treated (°C),control (°C)", *rows, ""]).encode()


start = datetime(2026, 10, 3, 9, 58, 50)


def readings(run):
    return zip(run.readings.index.tolist(), run.readings["treated"], run.readings["control"])


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    keeping_at.cache_clear()
    return tmp_path


@pytest.fixture
def run():
    return invented_run(130, 21.5, gas=False)


def page_with_steps():
    own = own_run()
    return own, {name: getattr(own, name)() for name in STEPS}


def bring(steps, data, name="roof.csv"):
    """Hand a file over in Step 2 and keep it."""
    if len(steps["bring_in"].children) == 1 or steps["bring_in"].children[1] is steps["bring_in"].code:
        press(steps["bring_in"].card, "file")
    view = steps["bring_in"].children[1]
    view._pressed(view, {"press": "file", "number": "v-1", "values": {"name": name}}, [memoryview(data)])
    assert press(view, "keep") == f"Kept as {name}."


def kept_effect(steps):
    press(steps["mark"].card, "suggest")
    assert press(steps["measure"].card, "keep") == "Kept. The next steps work with it."


def code_of(step):
    return block_of(step.code, "code")["code"] if step.code in step.children else ""


def test_a_step_that_can_not_be_answered_says_what_is_missing(folder):
    _, steps = page_with_steps()
    first, second, *others = (words(steps[name].card) for name in STEPS)
    assert first == "Your runs You have no run here yet. Bring one in below, in Step 2. From then on it stands in this list."
    assert second.startswith("Bring a run in How does your run come in?")
    assert [NO_RUN in each for each in others].count(True) == 5 and [NO_EFFECT in each for each in others].count(True) == 5
    assert all(code_of(step) == "" for step in steps.values()) and not list(folder.iterdir())


def test_the_code_shown_gives_what_the_page_shows(run):
    own, steps = page_with_steps()
    bring(steps, table(run, leap_at_s=300))
    odd = steps["odd_places"].card
    assert press(odd, "decide", choice="out", reason=" ") == "Say why first. A reader of your report will ask."
    assert press(odd, "decide", choice="out", reason="touched") == ""
    assert "leaps by 25" in words(odd) and "Leave it out. Because: touched" in words(odd) and words(odd).endswith("again Decide anew")
    assert [title for title, _ in block_of(odd, "effects")["pairs"]] == ["With every reading", "Without what you left out"]
    kept_effect(steps)
    press(steps["compare"].card, "compare", beside="reference", margin="0.3")
    press(steps["add_to_class"].card, "add", to="class")
    made = {}
    for name in STEPS[:-2]:
        exec(code_of(steps[name]), made)
    assert made["run"].readings.equals(own.run.readings) and made["effect"].warming == own.effect.warming
    assert made["windows"].seconds == pytest.approx(own.effect.windows.seconds)
    assert any(remark.startswith("Left out: ") and remark.endswith(" Reason: touched.") for remark in own.run.remarks)


def test_the_windows_of_a_lesson_are_where_the_own_run_begins(run, folder, monkeypatch):
    windows = Windows((9, 10), (11, 12), (20, 21))
    monkeypatch.setenv("JPY_SESSION_NAME", str(folder / "06-windows-and-effect.ipynb"))
    (folder / "roof.csv").write_bytes(table(run))
    keep_marks(read_run(folder / "roof.csv"), windows)
    monkeypatch.setenv("JPY_SESSION_NAME", str(folder / "your-own-run.ipynb"))
    own, steps = page_with_steps()
    bring(steps, table(run))
    assert own.marker.windows == windows


def test_the_kept_effect_is_that_of_the_public_verb(run, folder):
    own, steps = page_with_steps()
    bring(steps, table(run))
    kept_effect(steps)
    read = read_run(folder / "roof.csv")
    effect = paired_effect(read, suggest_windows(read))
    assert own.effect.warming == effect.warming and str(effect) in words(steps["measure"].card)
    press(steps["compare"].card, "compare", beside="reference", margin="0.3")
    reference = paired_effect(reference_run(), suggest_windows(reference_run()))
    assert str(compare(effect, reference, margin=0.3)) in words(steps["compare"].card)


def test_the_effect_is_said_by_its_own_card_and_no_later_one(run):
    own, steps = page_with_steps()
    bring(steps, table(run))
    kept_effect(steps)
    assert [name for name in STEPS if str(own.effect) in words(steps[name].card)] == ["measure"]
    assert "The warming curve It took " in words(steps["curve"].card)


def test_all_is_there_again_in_a_fresh_kernel(run):
    own, steps = page_with_steps()
    bring(steps, table(run))
    press(steps["steady"].card, "look", over_min="5 min", tolerance="0.02 °C a minute")
    kept_effect(steps)
    own.marker.windows = Windows((8, 9), (11, 12), (18, 19))
    press(steps["note"].children[1], "typed", text="My jar warmed more.")
    keeping_at.cache_clear()
    again, steps = page_with_steps()
    assert again.effect.warming == own.effect.warming and again.marker.windows == own.marker.windows
    assert "over 5 min the difference drifted" in words(steps["steady"].card) and "My jar warmed more." in words(steps["note"].children[1])
    moved = "Your windows have moved since. What is kept still comes from: baseline"
    assert moved in words(steps["measure"].card) and buttons_of(steps["measure"].card) == ["keep"]
    assert "Done: brought in, looked whether it is steady, effect kept, note written." in words(steps["runs"].card)


def test_each_run_keeps_its_own_and_can_be_opened_again(run):
    own, steps = page_with_steps()
    bring(steps, table(run))
    kept_effect(steps)
    first = own.effect
    bring(steps, table(invented_run(140, 22, gas=False)), "second.csv")
    assert own.effect is None and NO_EFFECT in words(steps["curve"].card) and own.marker.run is own.run
    assert list(options_of(steps["runs"].card)) == ["second.csv", "roof.csv"]
    kept_effect(steps)
    assert press(steps["compare"].card, "compare", beside="roof.csv", margin="1.0") == ""
    made = {}
    for name in STEPS[:-2]:
        exec(code_of(steps[name]), made)
    assert made["other"].warming == first.warming
    assert press(steps["runs"].card, "open", run="roof.csv") == "roof.csv is open, as you left it."
    assert own.effect.warming == first.warming and own.marker.windows == first.windows
    assert "my run second.csv" in words(steps["compare"].card)


def test_what_was_decided_after_the_effect_was_kept_is_said(run):
    own, steps = page_with_steps()
    bring(steps, table(run, leap_at_s=300))
    own.marker.windows = Windows((9, 10), (11, 12), (19, 20))
    press(steps["measure"].card, "keep")
    press(steps["odd_places"].card, "decide", choice="out", reason="touched")
    assert "The readings it rests on have changed since. Keep it anew." in words(steps["measure"].card)
    assert press(steps["measure"].card, "keep") == "Kept. The next steps work with it."
    press(steps["odd_places"].card, "again")
    assert own.run.readings["control"].max() > 50 and buttons_of(steps["odd_places"].card) == ["decide"]


def test_odd_places_of_one_kind_are_decided_together(run):
    own, steps = page_with_steps()
    frame = run.readings.copy()
    frame.iloc[[40, 50, 60], 1] += 25
    (leapy := table(type(run)(frame, run.name, run.source)))
    bring(steps, leapy)
    odd = steps["odd_places"].card
    assert "Place 1 of 3" in words(odd) and "Decide all 3 like this one" in words(odd)
    press(odd, "alike", choice="flag", reason="")
    assert buttons_of(odd) == ["again"] and sum(remark.startswith("Kept with a flag: control") for remark in own.run.remarks) == 3
    assert code_of(steps["odd_places"]) == "run = run.decide({1: ('flag', ''), 2: ('flag', ''), 3: ('flag', '')})"


def test_unplaced_windows_are_not_kept(run):
    _, steps = page_with_steps()
    bring(steps, table(run))
    assert press(steps["measure"].card, "keep") == "Nobody has placed the windows yet. Place them in Step 5, then keep the effect."


def test_a_record_without_a_change_says_so_and_waits_for_a_hand(run):
    own, steps = page_with_steps()
    flat = run.readings.iloc[:60]
    bring(steps, table(type(run)(flat, run.name, run.source)))
    assert press(steps["mark"].card, "suggest").startswith("No change stands out in this record")
    assert "at the end of the record?" in words(steps["steady"].card)


def test_a_run_whose_file_is_gone_leaves_the_page_whole(run, folder):
    _, steps = page_with_steps()
    bring(steps, table(run))
    (folder / "roof.csv").unlink()
    keeping_at.cache_clear()
    own, steps = page_with_steps()
    assert own.run is None and "roof.csv is no longer beside this notebook." in words(steps["runs"].card) and NO_RUN in words(steps["mark"].card)
    bring(steps, table(run))
    assert own.run is not None and "is no longer" not in words(steps["runs"].card)


def test_the_chart_is_not_made_anew_while_nothing_changed(run):
    own, steps = page_with_steps()
    bring(steps, table(run))
    kept_effect(steps)
    before = [step.children for step in steps.values()]
    press(steps["note"].children[1], "typed", text="A word.")
    assert [step.children for step in steps.values()] == before and isinstance(steps["mark"].children[1], WindowMarker)


def test_a_class_folder_gets_the_run_as_decided_and_again_in_its_place(run, folder):
    own, steps = page_with_steps()
    bring(steps, table(run))
    kept_effect(steps)
    press(steps["add_to_class"].card, "add", to="class")
    assert "One group cannot speak for a class" in words(steps["add_to_class"].card)
    for name in ("other", "third"):
        invented_run(130, 21.5, name=name).save(folder / "class" / f"{name}.csv")
    press(steps["add_to_class"].card, "add", to="class")
    assert "The treated vessels of 3 groups warmed by" in words(steps["add_to_class"].card)
    assert sorted(path.name for path in (folder / "class").iterdir()) == ["other.csv", "roof.csv", "third.csv"]


def test_the_report_button_is_there_when_the_kit_can_make_one(run, monkeypatch):
    monkeypatch.setattr(kit, "make_report", lambda: "Your report is kept.", raising=False)
    _, steps = page_with_steps()
    bring(steps, table(run))
    kept_effect(steps)
    assert press(steps["report"].card, "make") == "Your report is kept."


def test_a_sheet_by_hand_becomes_a_run(folder):
    own, steps = page_with_steps()
    press(steps["bring_in"].card, "hand")
    box = steps["bring_in"].children[1]
    press(box.children[0], "open", sheet="degC")
    _, sheet, using = box.children
    assert press(using, "use").startswith("by-hand-1.csv")
    press(sheet, "entered", rows=[[str(n), f"{21 + n / 10}", "21"] for n in range(12)])
    press(using, "use")
    assert own.run.name == "by-hand-1" and own_runs()[0].file == "by-hand-1.csv"


def test_a_logger_that_still_writes_becomes_a_run(run, folder):
    (folder / "bench.log").write_bytes(table(run))
    own, steps = page_with_steps()
    press(steps["bring_in"].card, "live")
    box = steps["bring_in"].children[1]
    assert list(options_of(box.children[0])) == ["bench.log"]
    press(box.children[0], "follow", source="bench.log")
    _, live, using = box.children
    while live.so_far is None or live.so_far.run is None:
        live._stopped.wait(0.01)
    assert press(using, "use") == ""
    assert own.run.readings.equals(live.run.readings) and own_runs()[0].file == "bench-recorded.csv"
    assert live._stopped.is_set()


def test_the_note_on_an_own_run_is_the_claim_of_the_report(run, folder):
    _, steps = page_with_steps()
    bring(steps, table(run))
    kept_effect(steps)
    press(steps["note"].children[1], "typed", text="My jar warmed more than its twin.")
    assert press(steps["report"].card, "make").startswith("Your report is kept in the folder reports as report-")
    (html,) = (folder / "reports").glob("*.html")
    assert "My jar warmed more than its twin." in html.read_text(encoding="utf-8")
