"""Lesson texts: read from the TOML beside the notebook, with a sentence for a teacher who left a line out."""

import pytest

from kit.faults import Fault
from kit.coursework.lessons.lessons import CardChoice, filled, names_in, read_card, read_lesson

TEXT = """
number = "77"
title = "Tea"
run = "basalt"

[[predictions]]
key = "warmer"
step = 1
back = 2
stem = "Which cup?"
says = "{effect}"
choices = [{ text = "open", below = 0.0 }, { text = "closed", at_least = 0.0 }]

[[questions]]
key = "lid"
goal = 1
stem = "Why?"
hint = "Look."
choices = [{ text = "a", right = true, feedback = "yes" }, { text = "b", idea = "i", back = 1, feedback = "no" }]

[[notes]]
key = "claim"
prompt = "Write."
starters = ["The cup …"]
look_for = ["a unit"]
samples = [{ title = "A", text = "t" }]
"""


def lesson_file(tmp_path, text):
    (tmp_path / "77-tea.toml").write_text(text, encoding="utf-8")
    return tmp_path


def test_a_lesson_beside_the_notebook_is_read(tmp_path):
    lesson, prediction = read_card("77.warmer", lesson_file(tmp_path, TEXT))
    assert (lesson.title, prediction.stem, [each.text for each in prediction.choices]) == ("Tea", "Which cup?", ["open", "closed"])
    assert lesson.questions[0].right.text == "a" and lesson.card("claim").samples == (("A", "t"),)
    assert lesson.questions[0].texts == ("Why?", "Look.", "a", "yes", "b", "no")


def test_the_kits_own_lessons_are_found_from_anywhere(tmp_path):
    assert read_lesson("00", tmp_path).title == "Your first run"


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('stem = "Why?"\n', "", "77-tea.toml, 'lid': the line 'stem' is missing."),
        (
            "starters = ",
            'starter = ["a"]\nstarters = ',
            "77-tea.toml, 'claim': the kit knows no line 'starter'. It knows key, prompt, starters, samples and look_for.",
        ),
        ("right = true, ", "", "77-tea.toml, 'lid': one choice, and only one, needs the line 'right = true'."),
        ('back = 1, feedback', 'right = true, feedback', "77-tea.toml, 'lid': one choice, and only one, needs the line 'right = true'."),
        ('title = "Tea"\n', "", "77-tea.toml, 'the top': the line 'title' is missing."),
    ],
)
def test_a_slip_in_the_file_is_named(tmp_path, old, new, said):
    with pytest.raises(Fault) as told:
        read_lesson("77", lesson_file(tmp_path, TEXT.replace(old, new)))
    assert str(told.value) == said


def test_a_broken_line_is_named(tmp_path):
    with pytest.raises(Fault) as told:
        read_lesson("77", lesson_file(tmp_path, 'number = "77\n'))
    assert str(told.value).startswith("77-tea.toml can't be read as TOML: ") and "line 1" in str(told.value)
    assert str(told.value).endswith(". Mend that line, then run this cell again.")


def test_a_lesson_or_card_that_is_not_there_is_said(tmp_path):
    with pytest.raises(Fault) as told:
        read_lesson("98", tmp_path)
    assert str(told.value) == "There is no lesson '98': no file 98-….toml lies beside this notebook or among the kit's lessons."
    with pytest.raises(Fault) as told:
        read_card("77.cooler", lesson_file(tmp_path, TEXT))
    assert str(told.value) == "Lesson 77 has no card 'cooler'. It has warmer and claim."


def test_numbers_are_filled_in_and_a_missing_one_is_named():
    assert filled("from {low} to {high}", {"low": "1 °C", "high": "2 °C"}) == "from 1 °C to 2 °C"
    assert names_in("{low} {high}") == ["low", "high"]
    with pytest.raises(Fault) as told:
        filled("about {rise}", {"low": "1 °C"})
    assert str(told.value) == "The text 'about {rise}' asks for {rise}, which this result does not hold. It holds low."


@pytest.mark.parametrize(("value", "predicted"), [(-0.1, "none"), (0.0, "low"), (0.99, "low"), (1.0, "high"), (7.0, "high")])
def test_a_choice_predicts_its_own_stretch_of_values(value, predicted):
    choices = {"low": CardChoice("low", at_least=0.0, below=1.0), "high": CardChoice("high", at_least=1.0), "no number": CardChoice("no number")}
    assert [name for name, each in choices.items() if each.predicts(value)] == ([predicted] if predicted != "none" else [])


def test_a_lone_brace_is_said():
    with pytest.raises(Fault) as told:
        names_in("from {low to high")
    assert str(told.value) == "The text 'from {low to high' has a brace without its partner. Write each name as {name}."


def test_a_choice_may_predict_a_word():
    stays, moves, open_one = CardChoice("It stays", when="stays"), CardChoice("It moves", when="moves"), CardChoice("Nobody can say")
    assert [each.predicts("stays") for each in (stays, moves, open_one)] == [True, False, False]
    assert not stays.predicts(0.0)


def test_a_lesson_may_be_named_without_a_number(tmp_path):
    (tmp_path / "home.toml").write_text('number = "home"\ntitle = "At home"\nrun = ""\n', encoding="utf-8")
    assert read_lesson("home", tmp_path).title == read_lesson("home", tmp_path).label == "At home"
    assert read_lesson("00").label == "Lesson 00"


TOP = 'number = "77"\ntitle = "Tea"\nrun = "basalt"\n'
TABLES = "must be tables, each begun by a line like"


@pytest.mark.parametrize(
    "lines, said",
    [
        ("predictions = 5", f"77-tea.toml, 'the top': 'predictions' {TABLES} [[predictions]]."),
        ("notes = {a = 1}", f"77-tea.toml, 'the top': 'notes' {TABLES} [[notes]]."),
        ("questions = [[1]]", f"77-tea.toml, 'the top': 'questions' {TABLES} [[questions]]."),
        ('[[predictions]]\nkey = "a"\nways = 3', f"77-tea.toml, 'a': 'ways' {TABLES} [[ways]]."),
        ('[[predictions]]\nkey = "a"\nchoices = "x"', f"77-tea.toml, 'a': 'choices' {TABLES} [[choices]]."),
        ('[[notes]]\nkey = "n"\nstarters = 4', "77-tea.toml, 'n': 'starters' must be texts in square brackets, [\"one\", \"two\"]."),
        ('[[notes]]\nkey = "n"\nlook_for = [4]', "77-tea.toml, 'n': 'look_for' must be texts in square brackets, [\"one\", \"two\"]."),
        ('minutes = "ten"', "77-tea.toml, 'the top': 'minutes' must be a whole number."),
        ("line = 3", "77-tea.toml, 'the top': 'line' must be a text in quotes."),
    ],
)
def test_what_is_of_the_wrong_kind_is_named(tmp_path, lines, said):
    with pytest.raises(Fault) as told:
        read_lesson("77", lesson_file(tmp_path, f"{TOP}{lines}\n"))
    assert str(told.value) == said
