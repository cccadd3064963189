"""A served class comes to the desk: out of the learners' folders, where their code may have put anything."""

import os
from collections import Counter

import pytest

from kit.bootstrap.options import read
from kit.bootstrap.places import LESSONS
from kit.classroom import place_in
from kit.commands.serve import serve
from kit.desk import bring_served, collect, progress_in
from kit.desk.served import plain_bytes, said_of
from tests.desk.conftest import learner

pytestmark = pytest.mark.skipif(os.name == "nt", reason="no class is served from Windows")


@pytest.fixture(scope="module")
def homes(tmp_path_factory):
    """Three who worked, one who did nothing, and files that were put there to lead astray."""
    place = place_in(tmp_path_factory.mktemp("served") / "class", make=True)
    for number, name in enumerate(("01", "02", "03")):
        place.home(name).mkdir()
        learner(place.home(name), name, number)
    place.home("04").mkdir()
    secret = place.root / "secret"
    secret.write_text("tickets")
    first = place.home("01")
    (first / "class").mkdir()
    (first / "class" / "ours.csv").write_text("minutes,left,right\n0,20.0,20.1\n1,20.1,20.3\n")
    (first / "class" / "linked.csv").symlink_to(secret)
    (first / "marks" / "linked.json").symlink_to(secret)
    (first / "linked").symlink_to(place.state)
    os.mkfifo(first / "waits-for-ever-answers.json")
    place.homes.joinpath("05").symlink_to(first)
    return place.homes


@pytest.fixture(scope="module")
def brought(homes, tmp_path_factory):
    into = tmp_path_factory.mktemp("desk") / "class"
    return into, bring_served(homes, into)


def test_each_who_did_something_is_handed_in_and_no_link_is_followed(brought):
    into, told = brought
    assert [number for number, why in told.items() if why is None] == ["01", "02", "03"] and list(told) == ["01", "02", "03", "04"]
    assert sorted(str(path.relative_to(into)) for path in into.rglob("*.*")) == ["learner-01.zip", "learner-01/ours.csv", "learner-02.zip", "learner-03.zip"]


def test_the_desk_reads_it_as_any_class(brought):
    collected = collect(brought[0])
    assert len(collected.packages) == 3 and {run.group for run in collected.runs} >= {"learner 01", "learner 02", "learner 03"}


def test_how_far_they_are_has_no_names_and_many_marks_are_one_run(brought):
    progress = progress_in(collect(brought[0]).packages, LESSONS)
    assert sum(progress.steps.values()) == 3 and all(place.startswith("Lesson 00, ") for place in progress.steps)
    ((run, values),) = progress.marks.items()
    assert run == "basalt" and len(values) == 3 and len(set(values)) == 1
    assert "basalt was marked by 3: from " in str(progress) and str(progress).endswith("That is one run read 3 times, not 3 runs.")
    assert not any(f"learner 0{number}" in str(progress) for number in (1, 2, 3))


def test_the_spread_of_marks_is_told_by_its_ends_and_its_middle():
    assert said_of("basalt", [1.4, 1.52, 1.6]) == (
        "basalt was marked by 3: from 1.40 °C to 1.60 °C, the middle 1.52 °C. That is one run read 3 times, not 3 runs."
    )
    assert said_of("basalt", [1.4]) == "basalt was marked once: 1.40 °C."


def test_what_is_no_plain_file_is_not_read(homes, tmp_path):
    here = os.open(homes / "01", os.O_RDONLY)
    try:
        assert [plain_bytes(name, here) for name in ("waits-for-ever-answers.json", "linked", "marks", "nothing")] == [None] * 4
    finally:
        os.close(here)


def test_a_run_that_is_said_to_lie_elsewhere_is_refused(tmp_path):
    home = tmp_path / "homes" / "01"
    home.mkdir(parents=True)
    learner(home, "01", 0)
    for path in (home / "runs").glob("*.json"):
        path.write_text(path.read_text().replace('"run.csv"', '"../../secret.csv"'))
    told = bring_served(tmp_path / "homes", tmp_path / "into")
    assert told == {"01": "A run in that folder is said to lie elsewhere (../../secret.csv). It was not looked for."}


def test_the_command_says_how_far_the_class_is(homes, tmp_path, capsys):
    options = read(["serve", "collect", str(homes.parent)])
    options.into = tmp_path / "class"
    assert serve(options) == 0
    said = capsys.readouterr().out
    assert f"The work of 3 learners is in {tmp_path / 'class'}." in said and "Lesson 00: 3 predicted." in said and Counter(said)["\n"] > 4
