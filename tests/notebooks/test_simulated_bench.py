"""The page with the simulated bench from a fresh kernel: quiet and empty at first, and as it was left when it is opened again."""

from kit.coursework.answers import add_answer, Answer
from kit.widgets.simulated.book import PAGE, RUN
from kit.widgets.simulated.setup import USUAL
from tests.lessons.reading import BENCH
from tests.notebooks.widgets import words


def test_it_opens_empty_and_says_how_to_begin(run_notebook):
    ran = run_notebook(BENCH.name)
    assert ran.stderr == [] and words(ran).count("There is no run yet.") == 2 and "In truth" not in words(ran)


def test_it_opens_as_it_was_left(run_notebook, tmp_path):
    path = tmp_path / f"{PAGE}-answers.json"
    add_answer(path, Answer(RUN, "run", {"bench": 4, "chosen": list(USUAL.values())}))
    add_answer(path, Answer(f"{PAGE}.truth.4", "said", {"cause": "m"}))
    ran = run_notebook(BENCH.name, folder=tmp_path)
    assert ran.stderr == [] and "bench 4, run 1" in words(ran) and "In truth the gas made" in words(ran)
