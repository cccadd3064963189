"""Three windows: valid or refused in words, kept with the run they belong to."""

import pytest

from kit.faults import Fault
from kit.records.windows import Windows
from tests.records.test_run import readings, run


def test_windows_around_a_perturbation():
    made = Windows.of_perturbation(11)
    assert (made.baseline, made.perturbation, made.response) == ((10, 11), (11, 12), (20.5, 21.5))
    assert Windows.of_seconds(made.seconds) == made


@pytest.mark.parametrize(
    ("pairs", "text"),
    [
        (
            ((10, 12), (11, 12), (20, 21)),
            "The perturbation starts at 11 min, before the baseline ends at 12 min. Move one of them, so that they do not overlap.",
        ),
        (
            ((1, 2), (3, 9), (8, 10)),
            "The response starts at 8 min, before the perturbation ends at 9 min. Move one of them, so that they do not overlap.",
        ),
        (((2, 1), (3, 4), (5, 6)), "The baseline must start before it ends. It was given 2 to 1 minutes."),
        (((1, 2), (3, 3), (5, 6)), "The perturbation must start before it ends. It was given 3 to 3 minutes."),
        (((1, 2), (3, 4), (5, float("nan"))), "The response must start before it ends. It was given 5 to nan minutes."),
        ((7, (3, 4), (5, 6)), "The baseline needs two times in minutes, its start and its end: (10, 11), say. It was given 7."),
    ],
)
def test_unfit_windows_are_refused(pairs, text):
    with pytest.raises(Fault) as raised:
        Windows(*pairs)
    assert str(raised.value) == text


def test_windows_come_back_as_they_were_saved(tmp_path):
    path, mine = tmp_path / "marks.json", run(readings())
    windows = Windows((0.1, 1 / 3), (1, 2), (3, 4))
    windows.save(path, mine)
    assert Windows.load(path, mine) == windows


def test_windows_never_land_on_another_run(tmp_path):
    path = tmp_path / "marks.json"
    Windows.of_perturbation(11).save(path, run(readings()))
    with pytest.raises(Fault) as raised:
        Windows.load(path, run(readings((0, 2, 5))))
    assert str(raised.value) == "The windows in marks.json belong to another run. Mark the windows of basalt anew."


@pytest.mark.parametrize("damage", ["", "{", "[]", '{"sha256": 1}', '"text"'])
def test_a_damaged_file_is_said_to_be_one(tmp_path, damage):
    path = tmp_path / "marks.json"
    path.write_text(damage)
    with pytest.raises(Fault) as raised:
        Windows.load(path, run(readings()))
    assert str(raised.value) == "marks.json does not hold windows that can be read. Delete it and mark the windows again."
