"""Thermometers against each other, against a better one, or against ice and boiling water: what to correct, and how well that is known."""

from dataclasses import dataclass
from math import inf, isfinite, sqrt

import numpy as np

from kit.analysis.thermometers.checkpoints import Points, fixed_points, paired_points, shown_step
from kit.analysis.thermometers.words import calibration_cautions, calibration_explained, calibration_sentence
from kit.estimate import Estimate
from kit.faults import Fault
from kit.records import Run
from kit.statistics import coverage_factor, display_uncertainty, fit_line, Line, side_by_side, SideBySide
from kit.units import temperature
from kit.words import Account, plain, table_html

PROBES = ("treated", "control")
# A scale known no better than this is left as it was: correcting it would bring in more than it takes out.
WORST_SCALE = 0.02


def calibrate(readings, *, pressure_pa=None, altitude_m=None, resolution_c=None):
    """The `Calibration` of both thermometers from readings in °C of one of these kinds:

    fixed points: {"ice": {"treated": 0.3, "control": -0.1}, "boiling": {"treated": 98.2, "control": 97.4}}, with `altitude_m` above the
    sea or, better, a barometer's `pressure_pa`; a list where a point was read several times. Against a reference: a table or dict with
    columns reference, treated and control. Side by side: a Run with both thermometers in one bath, or such a table without a reference:
    the treated one is then brought to agree with the control.

    A line through two points, or through more (GUM annex H.3). `resolution_c`: the display's step (None: the finest decimal among the
    readings). A Fault says what is missing. `Run.corrected(calibration)` applies it, and its uncertainty then counts in every effect.
    """
    if resolution_c is not None and not 0 < resolution_c < inf:
        raise Fault(f"resolution_c is the smallest step of the display in °C: 0.1, say. It was given {resolution_c!r}.")
    if isinstance(readings, Run):
        return from_record(readings)
    if isinstance(readings, dict) and {"ice", "boiling"} & set(readings):
        return from_points(fixed_points(readings, pressure_pa, altitude_m, resolution_c))
    if pressure_pa is not None or altitude_m is not None:
        raise Fault('Pressure and altitude go with readings in boiling water: {"ice": {...}, "boiling": {...}}.')
    return from_points(paired_points(readings, resolution_c))


@dataclass(frozen=True, eq=False)
class Calibration:
    """`method`: how it was made. `lines`: for each thermometer that is corrected the `Line` of what to add (°C) over its reading (°C).
    `points`: what was read. `gain_uncertainty`: relative standard uncertainty of one scale against the other, None where the readings span
    too little to see a scale and only the shift is corrected. `record`: what a record of both side by side showed, None without one."""

    method: str
    lines: dict
    points: Points
    gain_uncertainty: float | None
    record: SideBySide | None = None

    def correction(self, probe, temperature_c):
        """What to add to a reading of `probe` ('treated' or 'control') at `temperature_c`: an `Estimate` in °C."""
        line = self.lines.get(probe)
        if line is None:
            return Estimate(0.0, 0.0, 0.0, 0.0)
        return Estimate.from_error(float(line.at(temperature_c)), float(line.error_at(temperature_c)), coverage_factor(0.95, line.dof))

    def applied_to(self, run):
        """`run` with both thermometers corrected, the uncertainty of their scales set, and a remark that says so."""
        readings = run.readings.copy()
        for probe, line in self.lines.items():
            readings[probe] += line.at(readings[probe])
        gain = run.gain_uncertainty if self.gain_uncertainty is None else self.gain_uncertainty
        return run.with_remark(self.remark(run), readings=readings, gain_uncertainty=gain)

    def remark(self, run):
        """What applying this calibration to `run` does, in a sentence."""
        done = []
        for probe in self.lines:
            middle = float(run.readings[probe].median())
            done.append(f"{probe} {_signed(self.correction(probe, middle))} at {temperature(middle, 0)}")
        return f"Corrected by calibration ({self.method}): {', '.join(done)}."

    @property
    def cautions(self):
        """What to keep in mind."""
        return calibration_cautions(self)

    def explain(self):
        """A short plain account of the calibration, with its own numbers."""
        return Account(calibration_explained(self))

    def __str__(self):
        return calibration_sentence(self)

    def _repr_html_(self):
        read = np.concatenate([self.points.readings[probe] for probe in self.lines])
        shown = (float(read.min()), float(read.min() + read.max()) / 2, float(read.max()))
        rows = [(f"{probe} at {temperature(at, 1)}: add", self.correction(probe, at)) for probe in self.lines for at in shown]
        return table_html([*rows, *(("mind", each) for each in self.cautions)], str(self))

    def to_dict(self):
        """What JSON can keep."""
        parts = ("method", "lines", "points", "gain_uncertainty", "cautions")
        return {**{name: plain(getattr(self, name)) for name in parts}, "sentence": str(self)}


def _signed(estimate):
    return ("+" if estimate.value > 0 else "") + estimate.value_text


def from_points(points):
    """The `Calibration` of `Points`: a line for each thermometer, by their scatter where three or more show one."""
    lines = {probe: line_through(points, probe) for probe in points.readings}
    scale = scale_uncertainty(points, lines)
    if scale > WORST_SCALE:
        return Calibration(points.method, {probe: shift_alone(points, probe) for probe in lines}, points, None)
    return Calibration(points.method, lines, points, scale)


def line_through(points, probe):
    """The `Line` of the correction over the reading, its errors no smaller than what display and bath leave."""
    x, known = points.readings[probe], np.hypot(points.reading_error, points.true_error)
    y, origin = points.true[probe] - x, float(x.mean())
    if np.ptp(x) == 0:
        return Line(float(y.mean()), 0.0, origin, inf, inf, 0.0, float("nan"), inf)
    stated = fit_line(x, y, origin=origin, errors=known)
    if len(x) < 3:
        return stated
    seen = fit_line(x, y, origin=origin)
    return seen if seen.slope_error > stated.slope_error else stated


def scale_uncertainty(points, lines):
    """Relative standard uncertainty of one scale against the other; what both thermometers felt alike does not count.

    A scatter seen in few points is widened as Student's t is against the normal distribution.
    """
    alone = [fit_line(x, x * 0, errors=points.reading_error).slope_error if np.ptp(x) > 0 else inf for x in points.readings.values()]
    scattered = [line for line in lines.values() if isfinite(line.dof)]
    seen = [line.slope_error * coverage_factor(0.95, line.dof) / coverage_factor(0.95) for line in scattered]
    return float(max([*alone, *seen]))


def shift_alone(points, probe):
    """The `Line` that moves all readings alike: the mean correction."""
    x = points.readings[probe]
    y, known = points.true[probe] - x, np.hypot(points.reading_error, points.true_error)
    scatter = float(y.std(ddof=1))
    error = max(scatter / sqrt(len(x)), float(np.sqrt((known**2).mean() / len(x))))
    return Line(float(y.mean()), 0.0, float(x.mean()), error, 0.0, 0.0, scatter, len(x) - 1)


def from_record(run):
    """The `Calibration` of a Run whose thermometers were in one bath: the treated one is brought to agree with the control."""
    both = run.readings[list(PROBES)].dropna()
    if len(both) < 20:
        raise Fault(
            f"{run.name} holds {len(both)} readings of both thermometers. A comparison needs 20 or more, while the bath warms or cools "
            "slowly."
        )
    seconds, treated, control = both.index.to_numpy(float), both["treated"].to_numpy(float), both["control"].to_numpy(float)
    own = np.full(len(both), sqrt(2) * display_uncertainty(shown_step(both.to_numpy().ravel())))
    points = Points(
        "side by side", {"treated": treated}, {"treated": control}, own, own * 0, (f"{run} Both thermometers were in one bath.",)
    )
    if np.ptp(treated) == 0:
        return Calibration(points.method, {"treated": shift_alone(points, "treated")}, points, None)
    found = side_by_side(seconds, treated, control)
    line = found.line
    if line.slope_error > WORST_SCALE:
        still = Line(line.intercept, 0.0, line.origin, line.intercept_error, 0.0, 0.0, line.scatter, line.dof)
        return Calibration(points.method, {"treated": still}, points, None)
    return Calibration(points.method, {"treated": line}, points, line.slope_error, found)
