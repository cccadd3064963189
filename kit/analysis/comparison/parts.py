"""The parts of a number that pooling and comparing need apart: chance, which averages out, and what all runs may share, which doesn't."""

from dataclasses import dataclass
from functools import singledispatch
from math import inf, isfinite

from kit.analysis.curve import WarmingCurve
from kit.analysis.effect import Effect
from kit.estimate import Estimate
from kit.faults import Fault
from kit.statistics import coverage_factor, widened_factor


@dataclass(frozen=True)
class Parts:
    """`value` ± `error` (standard, chance alone, `dof` degrees of freedom), and on top what may be amiss by no chance: `gain`, the
    standard uncertainty from the thermometers' scales, and `allowance`, how far a drift may have moved it. All in one unit."""

    value: float
    error: float
    dof: float = inf
    gain: float = 0.0
    allowance: float = 0.0

    @property
    def known(self):
        """Is there a value with an uncertainty?"""
        return isfinite(self.value) and 0 < self.error < inf

    @property
    def standard_error(self):
        """Chance and scales together."""
        return (self.error**2 + self.gain**2) ** 0.5


@singledispatch
def parts_of(thing):
    """The `Parts` of an Effect, a WarmingCurve's rise, a ClassEffect's mean or an Estimate. A Fault for anything else."""
    raise Fault(f"{type(thing).__name__} holds no warming with a range. Give effects, warming curves, a class effect or Estimates.")


@parts_of.register
def _(estimate: Estimate):
    return Parts(estimate.value, estimate.standard_error)


@parts_of.register
def _(effect: Effect):
    if effect.drift is None:
        return Parts(effect.warming.value, inf)
    factor = coverage_factor(effect.question.level, effect.noise.dof)
    gain = sum(line.size_c for line in effect.budget if line.name == "calibration") / factor
    error = max(effect.warming.standard_error**2 - gain**2, 0.0) ** 0.5
    return Parts(effect.warming.value, error, effect.noise.dof, gain, effect.drift.allowance_c)


@parts_of.register
def _(curve: WarmingCurve):
    return Parts(curve.rise.value, curve.rise.standard_error, curve.found.dof if curve.found else inf)


def ranged(value, error, dof, allowance, *, level=0.95, unit="°C"):
    """The `Estimate` whose range holds at `level` for any bias up to `allowance` (`kit.statistics.quantiles.widened_factor`)."""
    scale = error * coverage_factor(level, dof) / coverage_factor(level)
    reach = scale * float(widened_factor(allowance / scale, level)) if scale > 0 else allowance
    return Estimate(value, error, value - reach, value + reach, level, unit)
