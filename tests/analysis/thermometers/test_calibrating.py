"""Calibration: the GUM's worked example, fixed points, side by side, and what it does to a run and its effect."""

import json
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from kit import Fault, Run, Windows, calibrate, paired_effect
from kit.bench.noise import displayed, wander
from kit.estimate import amount
from kit.records.run import Source

GUM = json.loads((Path(__file__).parents[2] / "reference" / "calibration_line.json").read_text(encoding="utf-8"))["input"]
POINTS = {"ice": {"treated": 0.3, "control": -0.1}, "boiling": {"treated": 98.2, "control": 97.4}}
WINDOWS = Windows.of_perturbation(11)


def bath(scale=1.004, shift=0.3, span_c=20.0):
    seconds, rng = np.arange(0, 1200, 2.0), np.random.default_rng(1)
    true = 20 + span_c * -np.expm1(-seconds / 600)
    both = {"treated": scale * true + shift, "control": true}
    table = {name: displayed(each + wander(rng, seconds, 0.02, 20), 0.01) for name, each in both.items()}
    return Run(pd.DataFrame(table, index=pd.Index(seconds, name="elapsed_s")), "bath", Source("bath.csv", ""))


def test_the_worked_example_of_the_gum():
    """JCGM 100:2008, H.3: correction at 30 °C −0.1494 °C with standard uncertainty 0.0041 °C, slope 0.00218 ± 0.00067 (from memory)."""
    reading, correction = np.array(GUM["x"]), np.array(GUM["y"])
    found = calibrate({"reference": reading + correction, "treated": reading, "control": reading})
    at_30, line = found.correction("treated", 30), found.lines["treated"]
    assert (at_30.value, at_30.standard_error) == pytest.approx((-0.1494, 0.0041), abs=5e-5)
    assert (line.slope, line.slope_error) == pytest.approx((0.00218, 0.00067), abs=5e-6)


def test_the_boiling_point_at_500_m():
    """98.313 °C in the standard atmosphere: IAPWS-IF97 by iapws 1.5.5, ISO 2533 (0.05 K by altitude)."""
    found = calibrate(POINTS, altitude_m=500)
    assert found.points.true["treated"] == pytest.approx([0, 98.313], abs=0.05)
    assert found.correction("treated", 98.2).value == pytest.approx(98.313 - 98.2, abs=0.05)
    assert found.correction("control", -0.1).value == pytest.approx(0.1)


def test_a_barometer_knows_the_boiling_point_better_than_the_altitude():
    by_height, by_pressure = calibrate(POINTS, altitude_m=500), calibrate(POINTS, pressure_pa=95_461)
    assert by_pressure.correction("treated", 98).standard_error < by_height.correction("treated", 98).standard_error / 4
    assert by_pressure.gain_uncertainty == by_height.gain_uncertainty  # both thermometers felt the same boiling water


def test_a_calibrated_run_reads_true_and_says_so(made):
    run = made()
    wrong = Run(run.readings.assign(treated=run.readings["treated"] * 1.01 - 0.3), "wrong", run.source)
    ice = {"treated": -0.3, "control": 0.0}
    found = calibrate({"ice": ice, "boiling": {"treated": 1.01 * 99.606 - 0.3, "control": 99.606}}, pressure_pa=100_000, resolution_c=0.01)
    mended = wrong.corrected(found)
    assert mended.readings["treated"].to_numpy() == pytest.approx(run.readings["treated"].to_numpy(), abs=0.002)
    assert mended.gain_uncertainty == found.gain_uncertainty > 0
    assert mended.remarks[-1].startswith("Corrected by calibration (ice and boiling water): treated +0.09 °C at 21 °C")
    assert wrong.readings["treated"].iloc[0] != mended.readings["treated"].iloc[0]


def test_its_uncertainty_counts_in_the_effect(made):
    run = made()
    rough = calibrate({"treated": [10.0, 40.0], "control": [10.0, 40.0]}, resolution_c=1.0)
    size = {line.name: line.size_c for line in paired_effect(run.corrected(rough), WINDOWS).budget}["calibration"]
    assert size > 0 and paired_effect(run.corrected(rough), WINDOWS).warming.half_width > paired_effect(run, WINDOWS).warming.half_width


def test_side_by_side_brings_the_treated_one_to_the_control():
    found = calibrate(bath())
    assert set(found.lines) == {"treated"} and found.gain_uncertainty < 0.005
    truth = (30.42 - 0.3) / 1.004 - 30.42
    assert found.correction("treated", 30.42).holds(truth)
    assert [caution.code for caution in found.cautions] == ["lag-hidden", "apart", "no-reference"]


def texts(calibration):
    return {caution.code: str(caution) for caution in calibration.cautions}


def test_probes_that_differ_in_one_bath_are_asked_about():
    told = texts(calibrate({"treated": [20.1, 40.1, 60.1], "control": [20.0, 40.0, 60.0]}, resolution_c=0.01))
    assert told["apart"] == (
        "The two differ by about 0.100 °C in one bath. Is it the thermometers, or is the water not the same in both places? "
        "Stir, let them change places, and compare again."
    ).replace("0.100", told["apart"].split("about ")[1].split(" °C")[0])
    assert "apart" not in texts(calibrate({"treated": [20.01, 40.0], "control": [20.0, 40.0]}, resolution_c=0.01))


def test_a_bent_scale_is_seen_in_six_points_and_two_can_show_none():
    true = np.array([10.0, 25.0, 40.0, 55.0, 70.0, 85.0])
    bow = 0.3 * ((true - 47.5) / 37.5) ** 2
    found = calibrate({"reference": true, "treated": true + bow, "control": true}, resolution_c=0.01)
    assert texts(found)["bent"].startswith("The correction is no straight line: it bows by 0.15 °C in the middle.")
    assert "bent" not in texts(calibrate({"reference": true, "treated": true + 0.01 * true, "control": true}, resolution_c=0.01))
    assert "bent" not in texts(calibrate(POINTS, altitude_m=500))


def test_a_lag_is_taken_out_and_said():
    seconds, rng = np.arange(0, 1400, 2.0), np.random.default_rng(4)
    courses = {"treated": 30 + 8 * np.sin((seconds - 4) / 110), "control": 30 + 8 * np.sin(seconds / 110)}
    table = {name: displayed(each + wander(rng, seconds, 0.01, 10), 0.01) for name, each in courses.items()}
    found = calibrate(Run(pd.DataFrame(table, index=pd.Index(seconds, name="elapsed_s")), "bath", Source("bath.csv", "")))
    assert texts(found)["lag"].startswith(f"The treated thermometer comes about {amount(found.record.lag_s)} s later than the other.")
    assert found.record.lag_s == pytest.approx(4, abs=1)
    assert abs(found.lines["treated"].slope) < 3 * found.gain_uncertainty


@pytest.mark.parametrize("readings", [bath(span_c=0.2), {"treated": [20.1, 20.1], "control": [20.0, 20.0]}], ids=["run", "table"])
def test_one_temperature_shows_a_shift_and_no_scale(readings):
    found = calibrate(readings)
    assert found.gain_uncertainty is None and found.lines["treated"].slope == 0
    assert "no-scale" in [caution.code for caution in found.cautions]
    assert "The scales are left as they are" in str(found)


def test_a_shift_leaves_the_effect_as_it_was(made):
    run = made()
    shifted = run.corrected(calibrate({"treated": [20.1, 20.1], "control": [20.0, 20.0]}))
    assert paired_effect(shifted, WINDOWS).warming.value == pytest.approx(paired_effect(run, WINDOWS).warming.value)
    assert shifted.gain_uncertainty == run.gain_uncertainty


def test_points_that_scatter_are_told():
    true = [10.0, 30.0, 60.0, 90.0]
    found = calibrate({"reference": true, "treated": [10.2, 29.8, 60.2, 89.8], "control": [10.1, 30.1, 60.1, 90.1]})
    assert [caution.code for caution in found.cautions] == ["scatter"]
    assert found.lines["treated"].slope_error > 4 * found.lines["control"].slope_error


def test_the_step_of_the_display_is_read_from_the_digits_and_said():
    assert calibrate(POINTS, altitude_m=0).points.told[-1] == "The display moves in steps of 0.1 °C."
    assert calibrate(POINTS, altitude_m=0, resolution_c=0.5).gain_uncertainty > calibrate(POINTS, altitude_m=0).gain_uncertainty


def test_several_readings_of_a_point_are_averaged_and_their_scatter_counts():
    many = {**POINTS, "boiling": {"treated": [98.0, 98.4], "control": 97.4}}
    found = calibrate(many, altitude_m=500)
    assert found.points.readings["treated"][1] == pytest.approx(98.2)
    assert found.points.reading_error[1] == pytest.approx(np.hypot(0.2, 0.1 / np.sqrt(12)))


def test_the_account_names_points_lines_and_what_they_leave_in_an_effect():
    account = calibrate(POINTS, altitude_m=500).explain().splitlines()
    assert account[0].startswith("Ice slush is 0.00 °C. Water boils at ")
    assert account[2].startswith("The treated thermometer: a line through 2 points adds ")
    assert account[-1].startswith("In a paired effect a shift cancels; the scales leave ")


def test_it_is_kept_as_json_and_shown_as_a_table():
    found = calibrate(POINTS, altitude_m=500)
    assert json.loads(json.dumps(found.to_dict()))["gain_uncertainty"] == found.gain_uncertainty
    assert "treated at " in found._repr_html_()


@pytest.mark.parametrize(
    "readings, settings, message",
    [
        ({"ice": POINTS["ice"]}, {"altitude_m": 0}, "There is no reading in boiling water. A line needs both points, ice and boiling."),
        ({"boiling": POINTS["boiling"]}, {"altitude_m": 0}, "There is no reading in ice slush. A line needs both points, ice and boiling."),
        (
            {**POINTS, "ice": {"treated": 0.3}},
            {"altitude_m": 0},
            'The ice point has no number for the control thermometer. Write it so: {"ice": {"treated": 0.3, "control": -0.1}}.',
        ),
        (
            {**POINTS, "ice": {"treated": float("nan"), "control": 0.0}},
            {"altitude_m": 0},
            "The ice point of the treated thermometer is missing or no number. Read it again, or leave the point out.",
        ),
        (POINTS, {}, "Give either altitude_m, in metres above sea level, or pressure_pa, read from a barometer. One of them, not both."),
        (
            {"treated": [1, 2], "control": [1, 2]},
            {"altitude_m": 0},
            'Pressure and altitude go with readings in boiling water: {"ice": {...}, "boiling": {...}}.',
        ),
        (
            {"treated": [1, 2]},
            {},
            "There is no column control. The table needs treated and control, and reference if you have one. It has treated.",
        ),
        (
            {"treated": [1], "control": [1]},
            {},
            "A single row shows only a shift, and that by one look. Read both thermometers at two temperatures or more.",
        ),
        (
            {"treated": [1, "warm"], "control": [1, 2]},
            {},
            "A reading is no number. Write temperatures in °C, one in each place of the table.",
        ),
        (
            {"treated": [1, float("inf")], "control": [1, 2]},
            {},
            "A reading is missing or infinite. Fill it in, or take its row out.",
        ),
        (
            {"ice": POINTS["boiling"], "boiling": POINTS["ice"]},
            {"altitude_m": 0},
            "The treated thermometer shows 98.2 °C in ice slush and 0.3 °C in boiling water. "
            "Did two readings change places, or is it broken?",
        ),
        (POINTS, {"altitude_m": 0, "resolution_c": 0}, "resolution_c is the smallest step of the display in °C: 0.1, say. It was given 0."),
        (None, {}, "There is no column treated. The table needs treated and control, and reference if you have one. It has none."),
        (
            {"treated": [1, 2, 3], "control": [1, 2]},
            {},
            "These readings make no table. Give columns of equal length: treated, control, and reference if you have one.",
        ),
    ],
)
def test_what_is_missing_is_said(readings, settings, message):
    with pytest.raises(Fault) as fault:
        calibrate(readings, **settings)
    assert str(fault.value) == message


def test_a_short_record_of_a_bath_is_refused():
    run = bath()
    with pytest.raises(Fault) as fault:
        calibrate(Run(run.readings.iloc[:10], "bath", run.source))
    assert str(fault.value) == (
        "bath holds 10 readings of both thermometers. A comparison needs 20 or more, while the bath warms or cools slowly."
    )
