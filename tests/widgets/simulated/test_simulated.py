"""The page with the simulated bench: the truth stays shut until something is said, the bars hold it, and a reload makes the same runs again."""

import time

import pytest

from kit.analysis.causes import RUNS
from kit.bench import reveal
from kit.coursework import keep_marks
from kit.records import Windows
from kit.widgets.cards.keeping import keeping_at
from kit.widgets.simulated import simulated_bench
from kit.widgets.simulated.setup import BENCHES, CHOICES, KIND_OF, USUAL, BenchRun
from tests.widgets.parts import block_of, buttons_of, press, words

WAIT_S = 20


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def page():
    return simulated_bench()


def use(step, bench="4", **changes):
    """Set a run up, and use it at once."""
    press(step.children[0], "start", bench=bench, **{**USUAL, **changes})
    press(step.children[2], "use")


def table(card, key):
    return {row[0]: row[1:] for row in block_of(card, key)["rows"]}


def test_without_a_run_every_step_says_where_to_begin(page):
    assert all("no run yet" in words(card) for card in (page.mark().children[0], page.open()))
    assert "needs a run with CO2" in press(page.weigh(), "weigh")


def test_a_run_comes_in_as_from_a_logger_and_is_used_as_a_whole(page, folder):
    step = page.set_up()
    assert "beside this page" in press(step.children[0], "start", bench="2", **USUAL)
    live, begun = step.children[1], time.monotonic()
    while (live.so_far is None or live.so_far.run is None) and time.monotonic() - begun < WAIT_S:
        time.sleep(0.05)
    assert live.run.minutes[-1] < 22 and page.runs == ()
    press(step.children[2], "use")
    assert [each.name for each in page.runs] == ["bench-2-run-1"] and (folder / "bench-2-run-1.csv").exists()
    assert len(step.children) == 1 and page.runs[0].run.minutes[-1] == pytest.approx(22.5)


def test_the_marker_goes_over_to_the_run_that_came_in(page):
    step, mark = page.set_up(), page.mark()
    use(step)
    use(step, mouths="covered")
    card, marker = mark.children
    assert marker.run is page.runs[1].run
    press(card, "mark", run="bench-4-run-1")
    assert marker.run is page.runs[0].run


def test_own_windows_count_and_planned_ones_until_then(page):
    use(page.set_up(), before="20 min")
    made = page.runs[0]
    assert made.windows == Windows.of_perturbation(20, 10)
    keep_marks(made.run, Windows((18, 20), (20, 21), (29, 31)))
    assert made.windows.response == (29, 31) and made.effect.windows == made.windows


def test_the_bars_move_run_by_run_and_hold_the_truth(page):
    step, card = page.set_up(), page.weigh()
    for changes in ({}, {"gas": "air"}, {"mouths": "covered"}, {"gas": "argon"}):
        use(step, **changes)
        assert press(card, "weigh") == ""
    bars = {bar["key"]: (bar["low"], bar["high"]) for bar in block_of(card, "board")["value"]["bars"]}
    for letter in "mda":
        true_c = reveal(page.runs[0].run).cause(letter).alone_c
        assert bars[letter][0] - 0.02 <= true_c <= bars[letter][1] + 0.02
    assert len(block_of(card, "shown")["value"]) == 4 and "argon" in words(card) + block_of(card, "board")["value"]["last"]["title"]


def test_the_truth_stays_shut_until_something_is_said(page):
    use(page.set_up())
    card = page.open()
    assert press(card, "open").startswith("Say first") and block_of(card, "truth") is None and "In truth" not in words(card)
    press(card, "open", **{"said 4": "m"})
    truth = reveal(page.runs[0].run)
    assert str(truth) in words(card) and "You said: less exchange" in words(card)
    assert table(card, "causes")["lamp light taken up (a)"][0] == f"{truth.cause('a').alone_c:.2f} °C"
    assert [row[-1] for row in table(card, "ranges").values()] == ["inside"]


def test_the_truth_of_another_bench_is_shut_again(page):
    step, card = page.set_up(), page.open()
    use(step)
    press(card, "open", **{"said 4": "cannot tell"})
    use(step, bench="5")
    assert block_of(card, "truth") is None and "bench 5" in words(card) and [each.bench for each in page.runs] == [5]


def test_a_reload_makes_the_same_runs_again(page):
    use(page.set_up(), probes="shaded")
    before = page.runs[0]
    keeping_at.cache_clear()
    again = simulated_bench()
    assert again.runs == (before,) and again.runs[0].run.source.sha256 == before.run.source.sha256
    assert "shaded" not in buttons_of(again.mark().children[0]) and len(again.mark().children) == 2


def test_kinds_are_those_that_the_model_has_predictions_for():
    assert set(KIND_OF.values()) <= set(RUNS)
    both = BenchRun(1, 1, tuple({**USUAL, "gas": "argon", "mouths": "covered"}[name] for name in CHOICES))
    assert both.kind is None and both.words == "run 1: argon, covered, lamp on, read after 10 min"


def test_a_run_that_was_kept_with_fewer_choices_is_the_usual_one_in_the_others():
    kept = BenchRun(1, 3, ("CO2", "open", "lit", "dark", "20 min", "45 min"))
    assert kept.chosen[6:] == ("still", "usual")
    assert kept.words == "run 3: CO2, open, no lamp but warm water, gas at 20 min, read after 45 min"


def test_a_fan_takes_the_gas_out_of_a_wide_mouth_long_before_the_reading():
    """Bench 8 is 7.5 cm wide, bench 4 only 3.5: air over the mouth carries out by its area."""
    left = {}
    for bench in (4, 8):
        for air in ("still", "fan"):
            run = BenchRun(bench, 1, tuple({**USUAL, "air": air}[name] for name in CHOICES)).run
            left[bench, air] = run.readings["gas_ppm"].iloc[-1] / 1e6
    assert left[8, "fan"] < 0.02 < 0.2 < left[8, "still"] and 0.05 < left[4, "fan"] < left[4, "still"]


def test_changed_places_turn_what_the_bench_itself_does():
    usual, swapped = (BenchRun(8, 1, tuple({**USUAL, "places": each}[name] for name in CHOICES)) for each in ("usual", "swapped"))
    leaning = [reveal(each.run).cause("f").alone_c for each in (usual, swapped)]
    assert leaning[0] == pytest.approx(-leaning[1], abs=0.005) and abs(leaning[0]) > 0.05
    assert swapped.kind == "swapped" and swapped.words.endswith("places changed, read after 10 min")


def test_runs_that_cannot_be_weighed_are_named(page):
    step, card = page.set_up(), page.weigh()
    for changes in ({}, {}, {"air": "fan"}):
        use(step, **changes)
    press(card, "weigh")
    assert "Not weighed: run 3: CO2, open, lamp on, fan over the mouths" in words(card) and "the newer counts" in words(card)


@pytest.mark.parametrize("bench", BENCHES)
def test_every_bench_runs_with_every_choice(bench):
    for name, (_, options) in CHOICES.items():
        for value in options:
            run = BenchRun(bench, 1, tuple({**USUAL, name: value}[each] for each in CHOICES)).run
            assert run.kind == "simulated"
