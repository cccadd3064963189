"""Odd places: found, named, kept, and taken out only at the caller's word."""

from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from kit.faults import Fault
from kit.intake.read import read_run
from kit.records.oddities import OddPlace, odd_places

ODD = Path(__file__).parents[1] / "files" / "odd-readings.csv"
DATASETS = Path(__file__).parents[2] / "datasets"


def readings(seed=0, count=600, **columns):
    """Two vessels warming under a lamp, every 2 s, with noise of 0.02 °C on a display of 0.01 °C."""
    noise, times = np.random.default_rng(seed), 2.0 * np.arange(count)
    warm = 21 + 8 * (1 - np.exp(-times / 240))
    made = {name: np.round(warm + noise.normal(0, 0.02, count), 2) for name in ("treated", "control")}
    return pd.DataFrame({**made, **columns}, index=pd.Index(times, name="elapsed_s"))


def kinds(table):
    return [(place.kind, place.column, place.start_s, place.end_s, place.count) for place in odd_places(table)]


def test_the_sample_file_shows_all_four():
    assert [str(place) for place in read_run(ODD).odd_places()] == [
        "treated, at 1 min 40 s: leaps by 6.07 °C and back.",
        "gas_ppm, from 3 min 18 s to 9 min 58 s, 187 readings: held at its highest value, 5,000 ppm: "
        "the probe's top end, so read it as 'at least'.",
        "control, from 3 min 20 s to 4 min 48 s, 45 readings: stands still at 27.00 °C.",
        "all, from 6 min 40 s to 7 min 10 s: no reading for 30 s.",
    ]


def test_they_are_kept_and_said_in_the_remarks():
    run = read_run(ODD)
    assert run.readings.treated[100.0] > 29 and len(run.remarks) == 9
    assert run.remarks[5] == "treated: 1 odd place, kept as it is, at 1 min 40 s: leaps by 6.07 °C and back."


@pytest.mark.parametrize("seed", range(10))
@pytest.mark.parametrize("step_c", [0.01, 0.1, 0.5])
def test_noise_and_a_coarse_display_are_not_odd(seed, step_c):
    table = readings(seed)
    assert kinds((table / step_c).round() * step_c) == []


def test_the_bundled_runs_show_only_what_was_put_in():
    found = {
        path.stem: kinds(read_run(path, **({"time": "Logger time"} if path.stem == "dolomite" else {})).readings)
        for path in DATASETS.glob("*.csv")
    }
    assert {name: [kind for kind, *_ in odd] for name, odd in found.items() if odd} == {"dolomite": ["ceiling", "leap"]}


@pytest.mark.parametrize("count", [1, 2, 3])
@pytest.mark.parametrize("height", [-6, 0.5, 6])
def test_a_leap_of_up_to_three_readings_is_found(count, height):
    table = readings()
    table.iloc[300 : 300 + count, 0] += height
    assert kinds(table) == [("leap", "treated", 600.0, 600.0 + 2 * (count - 1), count)]


@pytest.mark.parametrize("count, level", [(1, 85.0), (3, 85.0), (2, 0.0)])
def test_first_readings_far_from_all_others_are_found(count, level):
    table = readings()
    table.iloc[:count, 0] = level
    (place,) = odd_places(table)
    assert kinds(table) == [("leap", "treated", 0.0, 2.0 * (count - 1), count)]
    assert place.detail == f"starts {abs(level - table.iloc[count, 0]):.2f} °C away from what follows"


def test_a_quick_rise_at_the_first_reading_of_a_slow_record_is_not():
    minutes = pd.Index(60.0 * np.arange(12), name="elapsed_s")
    warm = np.round(20 + 12 * (1 - np.exp(-np.arange(12) / 1.2)), 1)
    assert kinds(pd.DataFrame({"treated": warm, "control": warm - 0.5}, index=minutes)) == []


def test_a_step_that_stays_is_no_leap():
    table = readings()
    table.iloc[300:, 0] += 6
    assert [place.kind for place in odd_places(table)] == ["step"]


def test_a_sensor_that_stands_still_while_the_other_moves():
    table = readings()
    table.iloc[50:110, 1] = table.iloc[50, 1]
    assert kinds(table) == [("still", "control", 100.0, 218.0, 60)]


def test_a_gas_probe_at_its_top_end_is_named_but_not_steady_air():
    gas = np.minimum(10_000, np.r_[np.full(200, 400.0), 400 + 60.0 * np.arange(400)])
    assert kinds(readings(gas_ppm=gas)) == [("ceiling", "gas_ppm", 720.0, 1198.0, 240)]
    assert kinds(readings(gas_ppm=np.full(600, 400.0))) == []


def test_gaps_are_counted_with_their_times():
    table = readings().drop(index=[20.0, 22.0, 24.0, 26.0, 500.0])
    assert kinds(table) == [("gap", "all", 18.0, 28.0, 0)]


def test_temperatures_no_vessel_has():
    assert kinds(readings() + 300)[0] == ("range", "treated", 0.0, 1198.0, 600)


def test_taking_out_is_the_callers_word_and_is_said():
    run = read_run(ODD)
    leap, *_ = run.odd_places()
    without = run.without(leap)
    assert np.isnan(without.readings.treated[100.0]) and without.readings.treated.isna().sum() == 1
    assert without.remarks == (*run.remarks, "Taken out at your word: treated, at 1 min 40 s: leaps by 6.07 °C and back.")
    assert run.readings.treated.notna().all() and without.source == run.source


def test_a_place_of_ones_own_can_be_taken_out():
    run = read_run(ODD).without(OddPlace("moved", "control", 0, 60, 31, "somebody touched the probe"))
    assert run.readings.control.isna().sum() == 31
    assert run.remarks[-1] == "Taken out at your word: control, from 0 s to 1 min 0 s, 31 readings: somebody touched the probe."


@pytest.mark.parametrize(
    "place, message",
    [
        (
            OddPlace("gap", "all", 400, 430, 0, ""),
            "There is nothing to take out of 'all' from 6 min 40 s to 7 min 10 s. Choose a place that holds readings.",
        ),
        (OddPlace("x", "room", 0, 9, 1, ""), "There is nothing to take out of 'room' at 0 s. Choose a place that holds readings."),
        (
            OddPlace("x", "control", 0, 9e9, 5, ""),
            "Taking out control from 0 s to 150000000 min 0 s, 5 readings would change nothing, or leave less than two readings. "
            "Choose another place.",
        ),
    ],
)
def test_what_can_not_be_taken_out(place, message):
    with pytest.raises(Fault) as fault:
        read_run(ODD).without(place)
    assert str(fault.value) == message


def shifted(table, start, end, by):
    moved = table.treated.to_numpy(copy=True)
    moved[start:end] += by
    return table.assign(treated=np.round(moved, 2))


@pytest.mark.parametrize("by", [0.6, -0.6])
def test_a_step_and_a_bump_in_one_vessel_are_odd_wherever_they_come(by):
    way = "up" if by > 0 else "down"
    for start in (100, 400):  # before and after the change that a run is about
        (place,) = odd_places(shifted(readings(), start, None, by))
        assert (place.kind, place.column, place.start_s, place.end_s) == ("step", "treated", 2 * start, 1198)
        assert place.detail.startswith("goes 0.") and place.detail.endswith(f"{way} within one reading, and stays")
        (place,) = odd_places(shifted(readings(), start, start + 45, by))
        assert (place.kind, place.start_s, place.end_s, place.count) == ("bump", 2 * start, 2 * (start + 44), 45)
        assert place.detail.endswith(f"{way} within one reading, and later back so")


def test_a_vessel_that_warms_makes_no_step_however_seldom_it_is_read():
    """One reading a minute while a lamp comes on, and a small vessel that warms within half a minute: its next readings move, too."""
    minutes = 60.0 * np.arange(30)
    for speed_s in (60, 120, 240):
        warm = np.where(minutes < 600, 21, 21 + 9 * (1 - np.exp(-(minutes - 590) / speed_s)))
        table = pd.DataFrame({"treated": np.round(warm, 1), "control": np.round(warm, 1)}, index=pd.Index(minutes, name="elapsed_s"))
        assert not odd_places(table)


def test_after_a_gap_a_step_is_no_riddle():
    table = readings()
    table = table[(table.index < 400) | (table.index > 700)]
    assert {place.kind for place in odd_places(table)} == {"gap"}
