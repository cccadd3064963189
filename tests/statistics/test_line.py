"""The straight line with uncertainty against the worked example of the GUM and a reference library."""

import json
from pathlib import Path

import numpy as np
import pytest

from kit.faults import Fault
from kit.statistics.line import fit_line

GUM = json.loads((Path(__file__).parents[1] / "reference" / "calibration_line.json").read_text(encoding="utf-8"))["input"]
X, Y = (np.array(GUM[name]) for name in "xy")


def test_the_correction_at_30_degrees():
    """JCGM 100:2008, H.3.4: b(30 °C) = −0.1494 °C, u = 0.0041 °C (from memory; half of the last printed digit)."""
    line = fit_line(X, Y, origin=20)
    assert (line.at(30), line.error_at(30)) == pytest.approx((-0.1494, 0.0041), abs=5e-5)


def test_line_and_errors_equal_those_of_statsmodels():
    import statsmodels.api as sm

    errors = np.linspace(0.002, 0.006, len(X))
    reference = sm.WLS(Y, sm.add_constant(X - 20), weights=errors**-2).fit(cov_type="fixed_scale")
    line = fit_line(X, Y, origin=20, errors=errors)
    assert (line.intercept, line.slope) == pytest.approx(reference.params)
    assert (line.intercept_error, line.slope_error) == pytest.approx(reference.bse)


def test_two_points_with_known_errors():
    line = fit_line(np.array([0.4, 99.1]), np.array([-0.4, 0.9]), errors=np.array([0.03, 0.04]))
    assert line.slope == pytest.approx(1.3 / 98.7)
    assert line.slope_error == pytest.approx(0.05 / 98.7)
    assert (line.at(0.4), line.error_at(0.4)) == pytest.approx((-0.4, 0.03))


def test_where_the_intercept_is_taken_changes_nothing():
    near, far = (fit_line(X, Y, origin=origin) for origin in (0, 24))
    assert (near.at(28), near.error_at(28)) == pytest.approx((far.at(28), far.error_at(28)))


def test_points_that_all_lie_on_a_line_leave_no_error_anywhere():
    line = fit_line(np.array([20.1, 40.1, 60.1]), np.full(3, -0.1), origin=40)
    assert (line.at(60), line.error_at(60)) == pytest.approx((-0.1, 0), abs=1e-9)


def test_points_at_one_temperature_are_refused():
    with pytest.raises(Fault) as fault:
        fit_line(np.full(3, 22.5), np.array([0.1, 0.2, 0.1]))
    assert str(fault.value) == "All points lie at 22.5. A line needs points at two values at least, the further apart the better."
