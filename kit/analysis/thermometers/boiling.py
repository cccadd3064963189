"""At how many degrees water boils where you are, and how sure that is."""

from dataclasses import dataclass, replace
from math import sqrt

import numpy as np

from kit.estimate import Estimate
from kit.faults import Fault
from kit.physics import boiling_point_c, standard_pressure_pa
from kit.statistics import coverage_factor
from kit.words import account, plain, table_html

WEATHER_PA, BAROMETER_PA = 3_000, 100  # common practice, no source
ALTITUDES_M = np.linspace(0, 4_000, 81)


@dataclass(frozen=True, eq=False)
class BoilingPoint:
    """Boiling point (°C) with its interval, the pressure (Pa) and the limit (Pa) it is known to, and what it was taken from.

    `curve`: altitudes (m) with boiling points in the standard atmosphere, low, middle and high for the weather.
    """

    temperature: Estimate
    pressure_pa: float
    limit_pa: float
    taken_from: str
    curve: dict

    def __str__(self):
        return f"Water boils at {self.temperature.text} here, from {self.taken_from}."

    def explain(self):
        """How the boiling point follows from the pressure, and what its range is made of."""
        return account(
            f"Water boils where its vapour presses as hard as the air. The pressure is {self.pressure_pa:,.0f} Pa, from {self.taken_from}.",
            f"It may be off by {self.limit_pa:,.0f} Pa either way. That makes the range {self.temperature.range}.",
        )

    def _repr_html_(self):
        return table_html([("boils at", self.temperature.text), ("taken from", self.taken_from)], "Boiling point of water")

    def to_dict(self):
        return plain(self)


def boiling_point(*, altitude_m=None, pressure_pa=None):
    """BoilingPoint from the altitude (m above sea level) or, better, from a barometer's station pressure (Pa).

    IAPWS R7-97(2012), ISO 2533. The weather moves the pressure by ± 3,000 Pa, a barometer is off by up to ± 100 Pa (common practice,
    no source); such a limit b has the standard uncertainty b/√3 (JCGM 100:2008, 4.3.7). A Fault where both are given, or neither.
    """
    if (altitude_m is None) == (pressure_pa is None):
        raise Fault("Give either altitude_m, in metres above sea level, or pressure_pa, read from a barometer. One of them, not both.")
    if pressure_pa is not None:
        return _boiling(float(pressure_pa), BAROMETER_PA, f"a barometer that shows {pressure_pa:g} Pa")
    return _boiling(float(standard_pressure_pa(altitude_m)), WEATHER_PA, f"{altitude_m:g} m above sea level in any weather")


def _boiling(pressure_pa, limit_pa, taken_from):
    low, middle, high = boiling_point_c(pressure_pa + limit_pa * np.array([-1, 0, 1]))
    error = float(high - low) / 2 / sqrt(3)
    boils = replace(Estimate.from_error(float(middle), error, coverage_factor(0.95)), on_scale=True)
    return BoilingPoint(boils, pressure_pa, limit_pa, taken_from, _curve())


def _curve():
    pressures = standard_pressure_pa(ALTITUDES_M) + WEATHER_PA * np.array([[-1], [0], [1]])
    low, middle, high = boiling_point_c(pressures)
    return {"altitude_m": ALTITUDES_M, "low": low, "middle": middle, "high": high}
