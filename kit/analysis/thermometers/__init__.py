"""Thermometers against each other or against fixed points, and what to correct."""

from kit.analysis.thermometers.boiling import boiling_point, BoilingPoint
from kit.analysis.thermometers.calibrating import calibrate, Calibration

__all__ = ["boiling_point", "BoilingPoint", "calibrate", "Calibration"]
