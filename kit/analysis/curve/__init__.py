"""The warming curve: how far and how soon."""

from kit.analysis.curve.warming import fit_warming, fitted_part, WarmingCurve

__all__ = ["fit_warming", "fitted_part", "WarmingCurve"]
