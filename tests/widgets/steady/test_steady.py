"""The view of lesson 04: its verdicts are those of `check_steady`; pulling the axis changes the picture and nothing else."""

import re
import time

import numpy as np
import pytest

from kit import Fault, check_steady, example_run
from kit.live import start_replay
from kit.widgets.steady import steady_view
from kit.widgets.steady.steady import TOLERANCE, both_groups
from tests.widgets.parts import move


@pytest.fixture(scope="module")
def run():
    return example_run("chert-early")


@pytest.fixture
def view(run):
    return steady_view(run)


def test_pulling_the_axis_moves_the_line_and_not_the_drift(view):
    tall, low = move(view, tall=100), move(view, tall=1)
    assert tall["numbers"] == low["numbers"] and tall["sentence"] == low["sentence"] and tall["drift"] == low["drift"]
    assert np.ptp(tall["span"]) == pytest.approx(100) and np.ptp(low["span"]) == pytest.approx(1)
    assert tall["line"] == low["line"]


@pytest.mark.parametrize(("until", "over", "of"), [(8, 5, "difference"), (14, 10, "treated"), (3, 1, "control")])
def test_its_verdict_is_that_of_the_verb(view, run, until, over, of):
    answer = move(view, until=until, over=over, of=of)
    found = check_steady(run, over_min=over, tolerance_c_per_min=TOLERANCE, until_min=until, of=of)
    assert answer["sentence"] == str(found) and dict(answer["numbers"])["verdict"] == found.verdict


@pytest.mark.parametrize("name", ["basalt", "chert-early"])
def test_the_range_that_is_drawn_agrees_with_the_verdict(name):
    """As step 8 puts it: all of it inside the tolerance, all of it outside, or across."""
    for until, over in ((8, 5), (10, 5), (10.5, 10), (14, 10)):
        found = check_steady(example_run(name), over_min=over, tolerance_c_per_min=TOLERANCE, until_min=until)
        low, high = sorted((found.decides.low, found.decides.high))
        beyond = low > TOLERANCE or high < -TOLERANCE
        assert found.verdict == ("steady" if -TOLERANCE < low and high < TOLERANCE else "drifting" if beyond else "cannot tell")


def test_a_look_back_beyond_the_start_is_as_long_as_there_is_record(view):
    assert "trouble" not in move(view, until=2, over=10)


def test_the_groups_of_the_lesson_are_as_it_says():
    told = both_groups()
    assert told.values == {"start": "yes", "axis": "neither"}
    assert told.texts["level"].startswith("Steady") and told.texts["early"].startswith("Drifting") and told.texts["short"].startswith("Cannot tell")


def test_a_replay_grows_line_by_line_and_ends_with_the_run(tmp_path):
    path = start_replay("kitchen-gas", times=600, folder=tmp_path)
    end = time.monotonic() + 20
    while time.monotonic() < end and len(path.read_text(encoding="utf-8").splitlines()) < _lines():
        time.sleep(0.05)
    assert len(path.read_text(encoding="utf-8").splitlines()) == _lines()


def _lines():
    from kit.examples import example_path

    return len(example_path("kitchen-gas").read_text(encoding="utf-8").splitlines())


@pytest.mark.parametrize("times", [0, 0.5, 1e9])
def test_a_speed_that_can_not_be_is_a_sentence(tmp_path, times):
    with pytest.raises(Fault, match="replayed 1 to 600 times"):
        start_replay("basalt", times, tmp_path)


def test_a_line_through_the_named_minutes_climbs_as_the_card_says():
    """A plain least-squares line by numpy (`numpy.polyfit`), as a class would draw it through the minutes that the card names."""
    climb, minutes, end = re.match(r"by ([0-9.]+) .* over the ([0-9]+) min up to minute ([0-9.]+)$", both_groups().texts["climbing"]).groups()
    basalt = example_run("basalt")
    seen = (basalt.minutes >= float(end) - float(minutes)) & (basalt.minutes <= float(end))
    slope, _ = np.polyfit(basalt.minutes[seen], basalt.readings["treated"].to_numpy()[seen], 1)
    assert f"{slope:.2f}" == climb
