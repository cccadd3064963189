"""A class of invented learners, each with a folder of their own, who hand in: group runs, predictions, answers and notes. All is made up."""

import pytest

from kit import Windows, hand_in, suggest_windows
from kit.coursework import Answer, LESSONS, add_answer, answers_path, keep_marks, own_runs, read_lesson, read_own, remember
from kit.examples import DATASETS, example_run

GROUPS = ("basalt", "chert", "dolomite", "flint", "gneiss", "marble", "pumice", "slate")


@pytest.fixture(scope="session")
def handed_in(tmp_path_factory):
    """`handed_in(names)` gives the folder with one hand-in for each name; the files are made once."""
    made = {}

    def folder(names):
        here = tmp_path_factory.mktemp("class")
        for place, name in enumerate(names):
            if name not in made:
                made[name] = learner(tmp_path_factory.mktemp("learner"), name, place)
            (here / made[name].name).write_bytes(made[name].read_bytes())
        return here

    return folder


def learner(folder, name, place):
    """One learner's work in `folder`; gives the hand-in that comes of it."""
    source = DATASETS / "class" / f"{GROUPS[place % len(GROUPS)]}.csv"
    # every group's readings differ: a line of its own at the end
    (folder / "run.csv").write_text(source.read_text(encoding="utf-8") + extra(source, place), encoding="utf-8")
    remember("run.csv", {}, folder)
    run = read_own(own_runs(folder)[0], folder)
    keep_marks(run, suggest_windows(run), folder)
    keep_marks(example_run("basalt"), Windows.of_perturbation(11), folder)
    answers(folder, name, place)
    return hand_in(name, folder).path


def extra(source, place):
    last = source.read_text(encoding="utf-8").rstrip().splitlines()[-1].split(",")
    return ",".join([f"{float(last[0]) + 2 + place:g}", *last[1:]]) + "\n"


def answers(folder, name, place):
    lesson_path, at = answers_path("00", folder), f"2026-11-20T10:{place:02}:00+01:00"
    for card, kind, content in (
        ("00.warmer", "prediction", {"choice": "c", "words": texts()[place % 2], "sure": "sure" if place % 3 == 0 else "a guess", "because": ""}),
        ("00.warmer", "second look", {"choice": "d", "words": texts()[1] if place % 2 == 0 else "", "because": "the lines part"}),
        ("00.control", "question", {"choice": "a" if place % 4 else "d", "words": "as read"}),
        ("00.claim", "note", {"text": f"<b>Group {place}</b> found that it warmed."}),
    ):
        add_answer(lesson_path, Answer(card, kind, content, at))


def texts():
    return [choice.text for choice in read_lesson("00", LESSONS).predictions[0].choices[2:4]]
