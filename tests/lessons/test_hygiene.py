"""Every lesson notebook keeps the form: no outputs, known tags, short code, cells that no stray key deletes, minutes that add up."""

import base64
import json
import re
import tomllib

import pytest

from kit.widgets.ownrun.step import STEPS
from tests.lessons.reading import LESSONS, NOTEBOOKS, OWN_RUN, PAGES, cells, number, source, steps

TAGS = {"head", "goals", "predict", "do", "read", "check", "answer", "further", "notebook", "wrap"}
PICTURE = re.compile(r"!\[([^\]]*)\]\(data:image/svg\+xml;base64,([^)]*)\)")


def test_there_is_a_first_lesson():
    assert [path.name for path in NOTEBOOKS][:1] == ["00-your-first-run.ipynb"]


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.stem)
class TestEachPage:
    def test_it_keeps_no_output_and_no_trace_of_a_machine(self, path):
        book = json.loads(path.read_text(encoding="utf-8"))
        assert book["metadata"] == {"kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"}}
        assert all(cell["outputs"] == [] and cell["execution_count"] is None for cell in cells(path, "code"))

    def test_cells_have_ids_of_their_own_and_one_known_tag(self, path):
        ids = [cell["id"] for cell in cells(path)]
        assert len(set(ids)) == len(ids) and all(each.startswith(f"{number(path)}-") for each in ids)
        assert all(len(cell["metadata"]["tags"]) == 1 and cell["metadata"]["tags"][0] in TAGS for cell in cells(path))

    def test_no_stray_key_deletes_a_cell_or_edits_a_text(self, path):
        assert all(cell["metadata"]["deletable"] is False for cell in cells(path))
        assert all(cell["metadata"]["editable"] is False for cell in cells(path, "markdown"))
        assert all(cell["metadata"].get("editable", True) for cell in cells(path, "code"))

    def test_code_is_short_and_only_the_first_cell_is_folded(self, path):
        code = cells(path, "code")
        assert all(1 <= len(source(cell).splitlines()) <= 3 and max(map(len, source(cell).splitlines())) <= 100 for cell in code)
        assert [cell["metadata"].get("jupyter", {}).get("source_hidden", False) for cell in code] == [True] + [False] * (len(code) - 1)

    def test_imports_stand_in_the_first_code_cell_only(self, path):
        first, *others = [source(cell) for cell in cells(path, "code")]
        assert first.startswith("from kit import ") and not any("import" in each for each in others)

    def test_the_first_cell_says_that_it_starts_by_itself(self, path):
        assert "starts by itself" in source(cells(path)[0]) and "**Start this lesson**" in source(cells(path)[0])


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
class TestEachLesson:
    def test_steps_are_counted_and_their_minutes_add_up(self, path):
        counted = steps(path)
        head = source(cells(path)[0])
        total, parts = re.search(r"^(\d+) minutes: (.*?)\.", head, re.MULTILINE).groups()
        assert [step for step, _, _ in counted] == list(range(1, len(counted) + 1)) and {of for _, of, _ in counted} == {len(counted)}
        told = tomllib.loads(path.with_suffix(".toml").read_text(encoding="utf-8"))["minutes"]  # for the contents page
        assert sum(minutes for _, _, minutes in counted) == int(total) == sum(map(int, re.findall(r"\d+", parts))) == told

    def test_the_order_is_that_of_every_lesson(self, path):
        order = [cell["metadata"]["tags"][0] for cell in cells(path)]
        spots = [order.index(tag) for tag in ("head", "goals", "predict", "check", "further", "notebook", "wrap")]
        assert spots == sorted(spots) and order.index("predict") < order.index("do", order.index("predict"))

    def test_pictures_are_those_kept_beside_it_and_say_what_they_show(self, path):
        found = [shown for cell in cells(path, "markdown") for shown in PICTURE.findall(source(cell))]
        kept = [each.read_bytes() for each in (LESSONS / "pictures").glob(f"{number(path)}-*.svg")]
        assert sorted(base64.b64decode(picture) for _, picture in found) == sorted(kept)
        assert all(len(words.split()) >= 10 for words, _ in found)


def test_the_steps_of_the_page_for_own_runs_are_those_that_its_cards_lead_to():
    heads = [re.match(r"## Step (\d+) of 13: ", source(cell)) for cell in cells(OWN_RUN, "markdown")[1:]]
    assert [int(head[1]) for head in heads] == list(range(1, 14)) == list(STEPS.values())
    lines = [source(cell) for cell in cells(OWN_RUN, "code")[1:]]
    assert [lines[STEPS[name] - 1] for name in ("bring", "effect")] == ["own.bring_in()", "own.measure()"]
