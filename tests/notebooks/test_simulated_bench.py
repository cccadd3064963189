"""The page with the simulated bench from a fresh kernel: quiet and empty at first, and as it was left when it is opened again."""

import pytest

from kit.bench import reveal
from kit.coursework.answers.answers import add_answer, Answer
from kit.units import difference
from kit.widgets.simulated.book import PAGE, RUN
from kit.widgets.simulated.setup import BENCHES, BenchRun, CHOICES, mouth_cm, USUAL
from tests.lessons.reading import BENCH, cells, GUIDE, source
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


@pytest.mark.parametrize("bench", BENCHES)
def test_the_teachers_numbers_are_those_of_the_benches(bench, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    usual, fan, swapped = (_first(bench, **changes) for changes in ({}, {"air": "fan"}, {"places": "swapped"}))
    most = max(reveal(usual.run).causes, key=lambda cause: cause.alone_c)
    size = f"{most.name} ({most.letter}), {difference(most.alone_c, 2)}"
    cells_ = [f"{bench}, {mouth_cm(bench):g} cm", _shown(usual), size, _shown(fan), _shown(swapped)]
    assert f"| {' | '.join(cells_)} |" in GUIDE.read_text(encoding="utf-8")


def test_the_mouth_made_most_on_all_benches_but_one():
    most = [max(reveal(_first(bench).run).causes, key=lambda cause: cause.alone_c).letter for bench in BENCHES]
    assert most.count("m") == 7 == len(BENCHES) - 1 and "seven of the eight benches" in GUIDE.read_text(encoding="utf-8")


def _first(bench, **changes):
    return BenchRun(bench, 1, tuple({**USUAL, **changes}[name] for name in CHOICES))


def _shown(made):
    return f"{made.effect.warming.value_text} ({made.effect.warming.range})"


def test_the_guide_has_a_page_on_it_in_the_form_of_a_lessons():
    page = GUIDE.read_text(encoding="utf-8").partition("\n## The simulated bench (")[2].partition("\n## ")[0]
    parts = ("Purpose", "Before", "Set-up", "Pacing", "Safety", "The predictions", "Hinge", "Three wrong turns", "Key", "Numbers", "Three notes", "Cut first")
    places = [page.index(f"**{part}") for part in parts]
    assert places == sorted(places)
    asked = [source(cell) for cell in cells(BENCH, "markdown") if source(cell).startswith("## Step")]
    assert f"{len(asked)}:" in asked[-1] and "step 4" in page and "open the truth" in asked[3]
