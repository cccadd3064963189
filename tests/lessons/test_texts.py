"""Card texts: every goal is asked about and comes back at the end, every choice that misses stands for an idea and leads somewhere."""

import re

import pytest

from kit.coursework.lessons.lessons import names_in, read_lesson
from tests.lessons.reading import cells, guide_page, NOTEBOOKS, number, source, STEP, steps

WITH_CARDS = [path for path in NOTEBOOKS if path.with_suffix(".toml").exists()]


def lesson_of(path):
    return read_lesson(number(path), path.parent)


def text_of(path, tag):
    return " ".join(source(cell) for cell in cells(path) if cell["metadata"]["tags"] == [tag])


@pytest.mark.parametrize("path", WITH_CARDS, ids=lambda path: path.stem)
class TestEachLesson:
    def test_every_goal_is_named_by_a_question_and_at_the_end(self, path):
        goals = set(map(int, re.findall(r"Goal (\d)", text_of(path, "goals"))))
        wrapped = re.findall(r"Goal (\d), questions? ([\d and,]+)", text_of(path, "wrap"))
        named = {int(goal): set(map(int, re.findall(r"\d+", numbers))) for goal, numbers in wrapped}
        asked = {goal: {n for n, each in enumerate(lesson_of(path).questions, 1) if each.goal == goal} for goal in goals}
        assert goals == {each.goal for each in lesson_of(path).questions} and asked == named

    def test_every_miss_stands_for_an_idea_and_sends_back_to_a_step_that_exists(self, path):
        missed = [choice for question in lesson_of(path).questions for choice in question.choices if not choice.right]
        earlier = {step for step, _, _ in steps(path)}
        assert all(choice.idea and choice.back in earlier for choice in missed)

    def test_feedback_is_20_to_45_words_for_every_choice(self, path):
        feedback = [choice.feedback for question in lesson_of(path).questions for choice in question.choices]
        assert not [each for each in feedback if not 20 <= len(each.split()) <= 45]

    def test_choices_are_three_to_five_and_of_like_length(self, path):
        lesson = lesson_of(path)
        for card in (*lesson.questions, *lesson.predictions):
            lengths = [len(choice.text.split()) for choice in card.choices]
            assert 3 <= len(lengths) <= 5 and max(lengths) - min(lengths) <= 7
            assert len({choice.text for choice in card.choices}) == len(lengths)

    def test_the_right_choice_does_not_always_stand_in_one_place(self, path):
        places = [question.choices.index(question.right) for question in lesson_of(path).questions]
        assert len(places) < 3 or len(set(places)) > 2

    def test_predictions_are_few_asked_before_their_results_and_looked_at_again(self, path):
        lesson = lesson_of(path)
        assert len(lesson.predictions) <= 2
        for prediction in lesson.predictions:
            card = f'("{lesson.number}.{prediction.key}"'
            asked, opened, again = (first_step(path, part + card) for part in ("predict", "after", "recall"))
            assert (asked, again) == (prediction.step, prediction.back) and asked < opened <= again

    def test_what_comes_out_fits_one_choice_and_only_one(self, path):
        for prediction in lesson_of(path).predictions:
            words = [choice.when for choice in prediction.choices if choice.when]
            values = words if words else [n / 100 for n in range(-1000, 1001)] if prediction.number else []
            assert all(sum(choice.predicts(value) for choice in prediction.choices) == 1 for value in values)
            assert bool(prediction.number) or not words

    def test_no_number_is_typed_that_the_run_should_supply(self, path):
        lesson = lesson_of(path)
        texts = [text for question in lesson.questions for text in question.texts] + [each.says for each in lesson.predictions]
        assert not [text for text in texts if re.search(r"\d[.,]\d|\d °C", text)]
        assert any(names_in(text) for text in texts) or not lesson.run

    def test_ids_used_in_the_notebook_are_in_the_texts(self, path):
        lesson = lesson_of(path)
        code = re.sub(r"choose_run\([^)]*\)", "", " ".join(source(cell) for cell in cells(path, "code")))
        used = set(re.findall(rf'"{lesson.number}\.(\w+)"', code))
        assert used == {each.key for each in (*lesson.predictions, *lesson.notes)} and lesson.number == number(path)

    def test_no_two_cards_share_a_key(self, path):
        lesson = lesson_of(path)
        keys = [each.key for each in (*lesson.predictions, *lesson.questions, *lesson.notes)]
        assert len(set(keys)) == len(keys)

    def test_notes_come_with_beginnings_and_two_samples(self, path):
        assert all(len(each.starters) >= 2 and len(each.samples) == 2 and 3 <= len(each.look_for) <= 5 for each in lesson_of(path).notes)


@pytest.mark.parametrize("path", [path for path in WITH_CARDS if lesson_of(path).hinge], ids=lambda path: path.stem)
def test_the_hinge_question_is_the_guides(path):
    hinge = lesson_of(path).hinge
    assert f"Hinge: question {hinge}**" in guide_page(path) and hinge <= len(lesson_of(path).questions)


def first_step(path, code):
    """The step under whose heading this code stands first."""
    step = 0
    for cell in cells(path):
        step = max([step, *(int(found[0]) for found in STEP.findall(source(cell)))])
        if cell["cell_type"] == "code" and code in source(cell):
            return step
    raise AssertionError(f"{code} stands in no cell")
