"""What was read for a calibration, brought to one form: each thermometer's readings, and what they should have been."""

from dataclasses import dataclass
from math import sqrt

import numpy as np
import pandas as pd

from kit.analysis.thermometers.boiling import boiling_point
from kit.faults import Fault
from kit.statistics import display_uncertainty
from kit.units import reading, stated, temperature
from kit.words import listed

PROBES = ("treated", "control")
# Slush and boiling water are not the same everywhere: a limit in °C, common practice, no source.
BATH_LIMIT_C = 0.1
# Water boils below 80 °C only higher than people live; a thermometer that shows less between the points is no thermometer.
LEAST_APART_C = 50.0
COARSEST_DECIMALS, FINEST_DECIMALS = 0, 3


@dataclass(frozen=True, eq=False)
class Points:
    """`readings` and `true`: {probe: (points,)}, °C. `reading_error`: standard uncertainty of a reading against the other thermometer's
    (°C), (points,); `true_error`: of what it should have been, alike for both. `told`: what was taken from where, a sentence each."""

    method: str
    readings: dict
    true: dict
    reading_error: np.ndarray
    true_error: np.ndarray
    told: tuple


def fixed_points(readings, pressure_pa, altitude_m, resolution_c):
    """The `Points` of ice and boiling water. A Fault for a point or a thermometer that is missing."""
    missing = [point for point in ("ice", "boiling") if point not in readings]
    if missing:
        raise Fault(
            f"There is no reading in {missing[0]} water. A line needs both points, ice and boiling.".replace("ice water", "ice slush")
        )
    refuse_changed_places(readings)
    boils = boiling_point(altitude_m=altitude_m, pressure_pa=pressure_pa)
    several = {probe: [_numbers(readings[point], probe, point) for point in ("ice", "boiling")] for probe in PROBES}
    step = shown_step(np.concatenate([each for pair in several.values() for each in pair])) if resolution_c is None else resolution_c
    own = [sqrt(display_uncertainty(step) ** 2 + max(_scatter(several[probe][place]) for probe in PROBES) ** 2) for place in (0, 1)]
    bath = BATH_LIMIT_C / sqrt(3)
    means = {probe: np.array([each.mean() for each in pair]) for probe, pair in several.items()}
    true = np.array([0.0, boils.temperature.value])
    told = (f"Ice slush is {temperature(0, 2)}. {boils}", f"The display moves in steps of {stated(step)}.")
    error = np.hypot([bath, bath], [0.0, boils.temperature.standard_error])
    return Points("ice and boiling water", means, dict.fromkeys(PROBES, true), np.array(own), error, told)


def refuse_changed_places(readings):
    """Raise a Fault where a thermometer shows no more in boiling water than it could by mistake."""
    for probe in PROBES:
        ice, boiling = (float(_numbers(readings[point], probe, point).mean()) for point in ("ice", "boiling"))
        if boiling - ice < LEAST_APART_C:
            raise Fault(
                f"The {probe} thermometer shows {reading(ice)} in ice slush and {reading(boiling)} in boiling water. "
                "Did two readings change places, or is it broken?"
            )


def _numbers(point, probe, name):
    try:
        values = np.atleast_1d(np.asarray(point[probe], dtype=float))
    except (KeyError, TypeError, ValueError, IndexError):
        raise Fault(
            f'The {name} point has no number for the {probe} thermometer. Write it so: {{"{name}": {{"treated": 0.3, "control": -0.1}}}}.'
        ) from None
    if not np.isfinite(values).all() or not values.size:
        raise Fault(f"The {name} point of the {probe} thermometer is missing or no number. Read it again, or leave the point out.")
    return values


def _scatter(values):
    """Standard error of the mean of repeated readings; 0 for a single one."""
    return float(values.std(ddof=1) / sqrt(len(values))) if len(values) > 1 else 0.0


def paired_points(readings, resolution_c):
    """The `Points` of a table: against its column reference where there is one, else the treated against the control."""
    table = _table(readings)
    step = shown_step(table.to_numpy(float).ravel()) if resolution_c is None else resolution_c
    own = np.full(len(table), display_uncertainty(step))
    told = (f"The display moves in steps of {stated(step)}.",)
    treated, control = (table[probe].to_numpy(float) for probe in PROBES)
    if "reference" in table:
        true = table["reference"].to_numpy(float)
        return Points("a reference thermometer", {"treated": treated, "control": control}, dict.fromkeys(PROBES, true), own, own * 0, told)
    return Points("side by side", {"treated": treated}, {"treated": control}, own * sqrt(2), own * 0, told)


def _table(readings):
    try:
        table = pd.DataFrame(readings)
    except (ValueError, TypeError) as problem:
        raise Fault(
            "These readings make no table. Give columns of equal length: treated, control, and reference if you have one."
        ) from problem
    lacking = [probe for probe in PROBES if probe not in table]
    if lacking:
        there = listed(table.columns) if len(table.columns) else "none"
        raise Fault(f"There is no column {lacking[0]}. The table needs treated and control, and reference if you have one. It has {there}.")
    try:
        table = table[[name for name in ("reference", *PROBES) if name in table]].astype(float)
    except (ValueError, TypeError) as problem:
        raise Fault("A reading is no number. Write temperatures in °C, one in each place of the table.") from problem
    if not np.isfinite(table.to_numpy()).all():
        raise Fault("A reading is missing or infinite. Fill it in, or take its row out.")
    if len(table) < 2:
        raise Fault("A single row shows only a shift, and that by one look. Read both thermometers at two temperatures or more.")
    return table


def shown_step(values):
    """The display's step as the readings show it: the finest decimal among them, 1 to 0.001 °C."""
    for decimals in range(COARSEST_DECIMALS, FINEST_DECIMALS + 1):
        if np.allclose(values, np.round(values, decimals), rtol=0, atol=1e-9):
            break
    return 10.0**-decimals
