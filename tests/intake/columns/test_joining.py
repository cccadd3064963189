"""Several loggers made one record."""

from pathlib import Path

import numpy as np
import pytest

from kit.intake.read import look
from kit.intake.time.offsets import offset_between
from kit.intake.given.source import Raw

FILES = Path(__file__).parents[2] / "files"
PAIR = [FILES / "left-logger.csv", FILES / "right-logger.csv"]
SIDES = {"treated": "left", "control": "right"}


def rise(seconds, lamp_s=100.0, height=8.0, tau_s=240.0):
    """A vessel under a lamp: level, then a saturating rise."""
    return 21 + height * np.where(seconds > lamp_s, 1 - np.exp(-(seconds - lamp_s) / tau_s), 0)


def logger(name, seconds, values, header="time (s),T (°C)"):
    return Raw(name, (f"{header}\n" + "".join(f"{second:g},{value!r}\n" for second, value in zip(seconds, values.tolist()))).encode())


def test_clocks_that_differ_are_asked_about_with_the_offset_that_both_felt():
    assert str(look(PAIR, **SIDES).question) == (
        "right-logger.csv: This clock seems 40 ± 8 s ahead of that of left-logger.csv. Say clock='shared event' (shift it so) "
        "or clock='as written' (leave it). Or say how many seconds: clock=40."
    )


@pytest.mark.parametrize(
    "word, said, start",
    [
        (
            "shared event",
            "The clock of right-logger.csv is ahead of that of left-logger.csv by 40 ± 8 s, from what both felt, as you said.",
            5,
        ),
        (40, "The clock of right-logger.csv is 40 s ahead of that of left-logger.csv, as you said.", 5),
        (
            "as written",
            "Took the clocks of left-logger.csv and right-logger.csv as written, as you said; "
            "what both felt fits best with 40 ± 8 s between them.",
            45,
        ),
    ],
)
def test_the_word_settles_the_offset(word, said, start):
    run = look(PAIR, **SIDES, clock=word).run
    assert said in run.remarks
    left = np.loadtxt(PAIR[0], delimiter=",", skiprows=1, usecols=1, encoding="utf-8")
    assert run.readings.treated.iloc[0] == pytest.approx(np.interp(start, 10 * np.arange(len(left)), left))
    assert run.name == "left-logger + right-logger" and run.source.name == "left-logger.csv + right-logger.csv"


def test_the_faster_record_is_read_between_its_neighbours_and_never_beyond():
    fast, slow = np.arange(0.5, 101.0), np.arange(-20, 160, 30.0)
    run = look([logger("a.csv", fast, fast / 10), logger("b.csv", slow + 1000, slow)], treated="a", control="b", clock=[1000]).run
    assert run.readings.control.tolist() == [10, 40, 70, 100]
    assert run.readings.treated.tolist() == pytest.approx([1, 4, 7, 10]) and run.readings.index.tolist() == [0, 30, 60, 90]
    assert run.remarks[-4] == (
        "Joined on the 4 times of 'b: T (°C)', over the 1 min 30 s that all cover. "
        "Readings of the others lie on the straight line between two of theirs, never beyond."
    )


def test_nothing_is_read_across_a_gap():
    fast = np.r_[np.arange(0, 40.0), np.arange(70, 120.0)]
    run = look(
        [logger("a.csv", fast, fast), logger("b.csv", np.arange(0, 120, 10.0), np.zeros(12))], treated="a", control="b", clock=0.0
    ).run
    assert np.isnan(run.readings.treated.to_numpy()).tolist() == [minute in (4, 5, 6) for minute in range(12)]


def test_pauses_as_many_as_steps_are_gaps_all_the_same():
    """A record of bursts: half of its steps are pauses, and what lies between two bursts was not read."""
    bursts = np.array([0, 10, 1000, 1010, 2000.0])
    other = logger("b.csv", np.arange(0, 2000, 505.0), np.zeros(4))
    run = look([logger("a.csv", bursts, bursts), other], treated="a", control="b", clock=0.0).run
    assert run.readings.index.tolist() == [0, 505, 1010, 1515]
    assert np.isnan(run.readings.treated.to_numpy()).tolist() == [False, True, False, True]


def test_three_files_are_one_run():
    times = np.arange(0, 600, 5.0)
    files = [
        logger("warm.csv", times, rise(times), "time (s),treated (°C)"),
        logger("cool.csv", times, rise(times), "time (s),control (°C)"),
    ]
    files.append(logger("gas.csv", times[::4], 400 + times[::4], "time (s),CO2 (ppm)"))
    run = look(files, clock="as written").run
    assert list(run.readings) == ["treated", "control", "gas_ppm"] and run.readings.gas_ppm.tolist()[:3] == [400, 405, 410]


@pytest.mark.parametrize(
    "files, words, message",
    [
        (
            [logger("a.csv", np.arange(9.0), np.zeros(9)), logger("b.csv", np.arange(9.0), np.zeros(9))],
            {},
            "b.csv: Nothing here tells how far this clock is ahead of that of a.csv. "
            "Say clock='as written' (they agree, or were started together). Or say how many seconds: clock=40. "
            "Which column is the treated vessel? Say treated='a: T (°C)' or treated='b: T (°C)'. "
            "Which column is the control vessel? Say control='a: T (°C)' or control='b: T (°C)'. "
            "One call settles all, for example: read_run(…, clock='as written', treated='a: T (°C)', control='b: T (°C)').",
        ),
        (
            [logger("a.csv", np.arange(9.0), np.zeros(9)), logger("b.csv", np.arange(9.0), np.zeros(9))],
            {"clock": 500},
            "a.csv and b.csv: These records do not cover a common stretch of time. "
            "Check the dates, or say by how many seconds the clocks differ: clock=40.",
        ),
        (
            [logger("a.csv", np.arange(9.0), np.zeros(9)), logger("b.csv", np.arange(9.0), np.zeros(9))],
            {"clock": [1, 2]},
            "2 numbers in clock= for 2 files. "
            "Say how many seconds each clock is ahead of the first file's, one number for each further file.",
        ),
        ([], {}, "No file was named. Name the files of all loggers: read_run(['left.csv', 'right.csv'])."),
    ],
)
def test_what_is_asked(files, words, message):
    question = look(files, **words).question
    assert str(question) == message and len(message.split()) <= 75


def test_clocks_of_the_day_that_agree_are_not_asked_about():
    times = np.arange(0, 1200, 10.0)
    stamps = [f"2026-03-01 10:{int(second) // 60:02d}:{int(second) % 60:02d}" for second in times]
    files = [
        Raw(
            f"{name}.csv",
            ("time,T (°C)\n" + "".join(f"{stamp},{value:.2f}\n" for stamp, value in zip(stamps, rise(times, height=height)))).encode(),
        )
        for name, height in (("a", 8.0), ("b", 7.5))
    ]
    run = look(files, treated="a", control="b").run
    assert any(
        remark.startswith("Took the clocks of a.csv and b.csv as agreeing; what both felt fits best with 0 ± ") for remark in run.remarks
    )


def test_times_of_day_are_taken_as_of_one_day():
    """And clocks of the day are believed where nothing that both felt tells otherwise."""
    stamps = [f"10:00:{second:02d}" for second in range(0, 50, 5)]
    files = [Raw(name, "".join(["time,T (°C)\n", *(f"{stamp},21.5\n" for stamp in stamps)]).encode()) for name in ("a.csv", "b.csv")]
    run = look(files, treated="a", control="b").run
    assert "Took the files' times as of the same day." in run.remarks
    assert "Took the clocks of a.csv and b.csv as agreeing; nothing that both felt tells otherwise." in run.remarks


def test_an_offset_without_a_second_file_is_refused():
    assert str(look(PAIR[:1], clock=40).question) == (
        "left-logger.csv: clock=40 says how far a second clock is ahead, but there is one file. "
        "Name both files in a list, or say what clock= means in words."
    )


@pytest.mark.slow
def test_the_range_of_the_offset_holds_the_true_one():
    """Pairs with different rates, time constants, noise and a gas effect in one vessel: at least 9 of 10 ranges hold the offset."""
    held = []
    for seed in range(24):
        noise = np.random.default_rng(seed)
        lamp, tau, ahead = noise.uniform(20, 300), noise.uniform(120, 400), noise.uniform(-200, 200)
        one, two = np.arange(0, 1290, 2.0), np.arange(3, 1290, 5.0)
        warm = rise(one, lamp, 8, tau) + rise(one, 660, 1.5) - 21 + noise.normal(0, 0.03, len(one))
        found = offset_between(one, warm, two + ahead, rise(two, lamp, 7.5, 1.1 * tau) + noise.normal(0, 0.03, len(two)))
        held += [abs(found.seconds - ahead) <= found.give_s] if found else []
    assert len(held) >= 20 and np.mean(held) >= 0.9


@pytest.mark.parametrize("height, widest", [(0, 0), (8, 60)])
def test_a_record_without_an_event_tells_no_offset_or_a_wide_range(height, widest):
    """Level, or on the way up from the start: a rise moved in time is nearly the same rise, smaller."""
    times, noise = np.arange(0, 1200, 5.0), np.random.default_rng(1)
    records = [rise(times, -60, height) + noise.normal(0, 0.02, len(times)) for _ in range(2)]
    found = offset_between(times, records[0], times + 40, records[1])
    assert found is None if not widest else found is None or abs(found.seconds - 40) <= found.give_s and found.give_s >= widest
