"""`copy`: which lesson is meant."""

from argparse import Namespace

import pytest

from kit.commands.copy import copy, the_lesson


@pytest.fixture
def lessons(tmp_path):
    for name in ("00-your-first-run", "04-is-it-steady", "06-windows-and-effect", "10-what-warmed-it"):
        (tmp_path / f"{name}.ipynb").touch()
    return tmp_path


@pytest.mark.parametrize(
    "word, name",
    [("00", "00-your-first-run"), ("04-is", "04-is-it-steady"), ("Effect", "06-windows-and-effect"), ("0-w", "10-what-warmed-it")],
)
def test_a_number_or_a_part_of_the_name_is_enough(word, name, lessons):
    assert the_lesson(word, lessons).stem == name


@pytest.mark.parametrize(
    "word, sentence",
    [
        ("0", "More than one lesson fits '0'. Choose one of: 00-your-first-run, 04-is-it-steady, 06-windows-and-effect"),
        ("moon", "No lesson fits 'moon'. Choose one of: 00-your-first-run, 04-is-it-steady, 06-windows-and-effect, 10-what-warmed-it"),
    ],
)
def test_a_word_that_does_not_decide_lists_those_that_would(word, sentence, lessons):
    with pytest.raises(SystemExit) as end:
        the_lesson(word, lessons)
    assert str(end.value) == sentence


def test_it_says_where_the_fresh_copy_is(tmp_path, capsys):
    assert copy(Namespace(lesson="00", work=tmp_path, all=None)) == 0
    assert capsys.readouterr().out == f"A fresh copy is in {tmp_path / '00-your-first-run.ipynb'}. The old one is as it was.\n"
