"""The desk's cards, pressed as a browser presses them: from an empty folder to the printed pages."""

import pytest

from kit import class_desk
from kit.examples import DATASETS
from kit.widgets.cards.keeping import keeping_at
from tests.desk.test_collecting import SIX
from tests.widgets.parts import block_of, press, words


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    keeping_at.cache_clear()
    return tmp_path


def hand_over(card, path, left=0):
    card._handle_custom_msg({"press": "file", "number": "1", "values": {"name": path.name, "left": left}}, [path.read_bytes()])


@pytest.fixture
def desk(folder, handed_in):
    """A desk to which six learners have handed in, one of them a damaged file."""
    desk = class_desk()
    card = desk.bring_in()
    files = sorted(handed_in(SIX).iterdir())
    (files[-1]).write_bytes(files[-1].read_bytes()[:500])
    for left, path in zip(range(len(files) - 1, -1, -1), files):
        hand_over(card, path, left)
    return desk


def test_an_empty_desk_says_what_to_bring():
    desk = class_desk()
    assert "No run has come in yet" in words(desk.runs()) and "No hand-in has come in yet" in words(desk.predictions())
    assert words(desk.unread()).endswith("Every file could be read.") and "No run has come in yet" in words(desk.pooled())
    assert press(desk.pages(), "page") == "No run has come in yet. Bring the class's files in above."


def test_files_are_kept_unchanged_and_the_damaged_one_is_told(desk, folder):
    assert len(list((folder / "class").iterdir())) == 6 and str(desk.collected) == "5 hand-ins and 5 runs came in. 1 file could not be read."
    assert "Ask: hand-in-Fern." in words(desk.unread())


def test_every_run_has_a_picture_and_the_suspect_ones_are_open(folder):
    (folder / "class").mkdir()
    for path in (DATASETS / "class").glob("*.csv"):
        (folder / "class" / path.name).write_bytes(path.read_bytes())
    pictures = [block for block in class_desk().runs().blocks if block["is"] == "folded"]
    assert len(pictures) == 8 and [block["title"] for block in pictures if block["open"]] == ["slate: look again"]
    assert all("<svg" in block["svg"] and block["alt"] and block["lines"] for block in pictures)


def test_what_is_said_of_the_vessels_changes_the_number_and_is_kept(desk):
    card = desk.pooled()
    form, before = block_of(card, "stood"), desk.effect.mean.value
    assert [row[2] for row in form["rows"]] == ["Amber", "Birch", "Cedar", "Dune", "Elm"] and form["value"] == ""
    press(card, "pool", stood=form["rows"][0][0], thermometers="unsaid")
    assert desk.swapped == ("Amber",) and desk.effect.mean.value != before
    keeping_at.cache_clear()
    assert class_desk().swapped == ("Amber",)


def test_counts_and_notes_are_there_without_names(desk):
    shown = words(desk.predictions()) + words(desk.questions()) + words(desk.notes())
    captions = [block["caption"] for block in desk.predictions().blocks if block["is"] == "rows"]
    assert captions == ["Lesson 00: 5 predicted. Of 5 who looked again, 3 changed it."]
    assert "missed it at first" in shown and not any(name in shown for name in SIX)


def test_two_notes_are_laid_side_by_side(desk):
    card = desk.notes()
    assert press(card, "wall") == "Choose one for each side first." and block_of(card, "wall") is None
    press(card, "wall", note="0", left="1", right="2")
    assert len(block_of(card, "wall")["pairs"]) == 2


def test_the_pages_are_written(desk, folder):
    card = desk.pages()
    assert press(card, "page") == "pages/class-page.html is written. Open it in the file list on the left, then print it."
    assert press(card, "sheets", groups="Amber\nElm\n\nElm", tablets="4", read="10").startswith("pages/bench-sheets.html is written.")
    assert (folder / "pages/bench-sheets.html").read_text(encoding="utf-8").count("Record sheet") == 2
    assert press(card, "sheets", groups=" ", tablets="4", read="10") == "Write the names of the groups first, one a line."


def test_the_bench_sheets_begin_with_what_the_class_uses(desk, folder):
    (folder / "class-settings.toml").write_text("[gas]\ntablets = 5\n[timing]\nread_after_min = 12\n")
    card = class_desk().pages()
    tablets, read = block_of(card, "tablets"), block_of(card, "read")
    assert (tablets["value"], read["value"]) == ("5", "12") and ["5", "5"] in tablets["options"] and ["12", "12 min after the gas"] in read["options"]
    (folder / "class-settings.toml").write_text('[gas]\nsource = "vinegar"\n')
    card = class_desk().pages()
    assert block_of(card, "tablets") is None and press(card, "sheets", groups="Amber", read="10").startswith("pages/bench-sheets.html is written.")
    assert "vinegar" in (folder / "pages/bench-sheets.html").read_text(encoding="utf-8")


def test_a_sheet_is_chosen_and_written(folder):
    card = class_desk().sheets()
    assert press(card, "one") == "Choose a sheet first."
    assert press(card, "one", sheet="11-glossary").startswith("pages/11-glossary.html is written.")
    assert press(card, "every").startswith("11 pages are written.") and len(list((folder / "pages").iterdir())) == 11
