"""The card of settings: it shows what holds, writes what was chosen, and refuses in words what may not stand there."""

import pytest

from kit.settings import class_settings, LINES, NAME, settings_from
from kit.widgets.classroom import settings_card
from tests.widgets.parts import press


@pytest.fixture
def file(tmp_path, monkeypatch):
    """A file of settings in a folder of its own, so that the kit's own is left alone."""
    monkeypatch.chdir(tmp_path)
    path = tmp_path / NAME
    path.write_text("[vessel]\ndepth_cm = 12\n[lamp]\nkind = 3\n", encoding="utf-8")
    return path


def shown(card):
    return {block["key"]: block.get("value") for block in card.blocks}


def offered(card):
    return [name for name, _words in next(block["presses"] for block in card.blocks if block["is"] == "buttons")]


def filled(card, **changes):
    return {item.name: shown(card)[item.name] for item in LINES} | changes


def test_it_shows_every_line_and_names_what_is_not_used(file):
    card = settings_card()
    assert shown(card)["depth_cm"] == "12" and shown(card)["temperature"] == "°C" and shown(card)["volume_l"] == ""
    assert {item.name for item in LINES} <= set(shown(card))
    unfit = next(block["text"] for block in card.blocks if block["key"].startswith("unfit"))
    assert unfit == f'{NAME}, line 4: kind can be "filament", "halogen" or "dark". It was given 3. It is left out.'


def test_it_writes_what_was_chosen_and_shows_it(file):
    card = settings_card()
    told = press(card, "write", **filled(card, temperature="°F", ask_names="False", mouth_cm="6,5", tablets="3"))
    assert told == f"Written: {file}. It holds for the lessons in that folder and below it. A lesson that is open follows when you go back to it."
    said = settings_from(file.read_text(encoding="utf-8"))
    assert said.problems == () and said.said == {"temperature": "°F", "ask_names": False, "depth_cm": 12, "mouth_cm": 6.5, "tablets": 3}
    assert shown(card)["mouth_cm"] == "6.5" and shown(card)["ask_names"] == "False" and not [key for key in shown(card) if key.startswith("unfit")]


@pytest.mark.parametrize("typed", ["warm", "0", "1e9", "nan", "-3"])
def test_what_may_not_stand_there_is_refused_and_nothing_is_written(file, typed):
    before = file.read_bytes()
    told = press(settings_card(), "write", **filled(settings_card(), mouth_cm=typed))
    assert told == "Nothing is written yet. How wide its mouth is: a number from 1 to 20 (cm)." and file.read_bytes() == before


def test_all_can_go_back_to_usual(file):
    card = settings_card()
    press(card, "usual")
    assert class_settings().said == {} and shown(card)["depth_cm"] == ""


def test_what_all_as_usual_wrote_over_is_taken_back_by_one_press(file):
    mine, card = file.read_bytes(), settings_card()
    assert "back" not in offered(card)
    press(card, "usual")
    assert class_settings().said == {} and "back" in offered(card)
    press(card, "usual")
    press(card, "write", **filled(card, mouth_cm="6"))
    assert (file.parent / f"{NAME}.before").read_bytes() == mine  # what holds nothing never takes the place of what was said
    told = press(card, "back")
    assert told.startswith("Written") and file.read_bytes() == mine and shown(card)["depth_cm"] == "12"
    press(card, "back")
    assert shown(card)["mouth_cm"] == "6" and shown(card)["depth_cm"] == ""


def test_a_card_drawn_before_the_kept_file_went_says_so(file):
    card = settings_card()
    press(card, "usual")
    (file.parent / f"{NAME}.before").unlink()
    assert press(card, "back") == "There is nothing to take back: no earlier settings are kept beside the file."
    assert class_settings().said == {} and "back" not in offered(card)


def test_a_folder_that_may_not_be_written_is_named(file, monkeypatch):
    monkeypatch.setattr("kit.widgets.classroom.setting.write_atomically", lambda *_: (_ for _ in ()).throw(PermissionError(13, "Permission denied")))
    told = press(settings_card(), "usual")
    assert told == f"{file} could not be written (Permission denied). Ask for the right to write there, or make room, then try again."
