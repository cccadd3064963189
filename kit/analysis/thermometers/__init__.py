"""Thermometers against each other or against fixed points, and what to correct."""

from kit.analysis.thermometers.boiling import BoilingPoint
from kit.analysis.thermometers.calibrating import calibrate, Calibration

__all__ = ["BoilingPoint", "calibrate", "Calibration"]
