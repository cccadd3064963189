"""What can be typed, and what each word means."""

import pytest

from kit.bootstrap.options import read
from kit.bootstrap.places import CHECKOUT


def test_lab_opens_a_browser_and_chooses_the_port_unless_told():
    plain, told = read(["lab"]), read(["lab", "--no-browser", "--port", "9500", "--work", "x"])
    assert (plain.browser, plain.port, plain.work) == (True, None, CHECKOUT / "my-work")
    assert (told.browser, told.port, str(told.work)) == (False, 9500, "x")


def test_words_after_two_dashes_are_passed_on_as_they_are():
    options = read(["test", "intake", "--", "-x", "--lf"])
    assert (options.words, options.rest) == (["intake"], ["-x", "--lf"])


@pytest.mark.parametrize("number", ["0", "65536", "-1"])
def test_a_port_is_a_number_that_can_be_one(number, capsys):
    with pytest.raises(SystemExit) as end:
        read(["lab", "--port", number])
    assert end.value.code == 2
    assert capsys.readouterr().err.endswith("argument --port: a port is a number from 1 to 65535\n")


@pytest.mark.parametrize("words", [["--help"], *([each, "--help"] for each in ("lab", "prepare", "copy", "guide", "pool", "test", "check"))])
def test_help_is_there_for_the_whole_and_each_part(words, capsys):
    with pytest.raises(SystemExit) as end:
        read(words)
    assert end.value.code == 0 and capsys.readouterr().out.startswith(" ".join(["usage: python3 -m kit", *words[:-1]]))


def test_an_unknown_command_names_the_known_ones(capsys):
    with pytest.raises(SystemExit):
        read(["lap"])
    complaint = capsys.readouterr().err
    assert all(word in complaint for word in ("lap", "lab", "prepare", "copy", "test", "check"))


def test_one_lesson_is_copied_or_all_of_them(capsys):
    assert (read(["copy", "00"]).lesson, read(["copy", "00"]).all) == ("00", None)
    assert (read(["copy", "--all", "x"]).lesson, str(read(["copy", "--all", "x"]).all)) == (None, "x")
    for words in (["copy"], ["copy", "00", "--all", "x"]):
        with pytest.raises(SystemExit):
            read(words)
    assert "one of the arguments lesson --all is required" in capsys.readouterr().err
