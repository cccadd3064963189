"""What is published about each gas: coefficients, each table with its source. Names: air (dry), CO2, argon, nitrogen, helium.

Coefficients and critical points as the packages chemicals 1.5.2 and CoolProp 8.0.0 carry them. The tests hold what comes of
them against CoolProp from 280 to 340 K.
"""

from dataclasses import dataclass

import numpy as np

from kit.faults import Fault
from kit.physics.checking import bounded, one_of
from kit.physics.constants import MOLAR_MASS_G

# Heat capacity of the ideal gas over R, powers 0 to 4 of temperature (K), 50 to 1000 K: Poling, Prausnitz & O'Connell,
# The Properties of Gases and Liquids, 5th ed., 2001, appendix A section C. Atoms without partners: 5/2.
HEAT_CAPACITY = {
    "CO2": (3.259, 1.356e-3, 1.502e-5, -2.374e-8, 1.056e-11),
    "nitrogen": (3.539, -0.261e-3, 0.007e-5, 0.157e-8, -0.099e-11),
    "oxygen": (3.630, -1.794e-3, 0.658e-5, -0.601e-8, 0.179e-11),
    "argon": (2.5, 0.0, 0.0, 0.0, 0.0),
    "helium": (2.5, 0.0, 0.0, 0.0, 0.0),
}
# Dry air by amount: Lemmon et al., J. Phys. Chem. Ref. Data 29:331, 2000.
AIR_PARTS = {"nitrogen": 0.7812, "oxygen": 0.2096, "argon": 0.0092}
HEAT_CAPACITY["air"] = tuple(sum(share * HEAT_CAPACITY[part][power] for part, share in AIR_PARTS.items()) for power in range(5))

# a T^b / (1 + c/T + d/T^2), T in K: Perry's Chemical Engineers' Handbook, 8th ed., 2008, tables 2-312 (viscosity, Pa s) and
# 2-314 (conductivity, W/m/K).
VISCOSITY = {
    "air": (1.425e-6, 0.5039, 108.3, 0.0),
    "CO2": (2.148e-6, 0.46, 290.0, 0.0),
    "argon": (9.2121e-7, 0.60529, 83.24, 0.0),
    "nitrogen": (6.5592e-7, 0.6081, 54.714, 0.0),
    "helium": (3.253e-7, 0.7162, -9.6, 107.0),
}
CONDUCTIVITY = {
    "air": (3.1417e-4, 0.7786, -0.7116, 2121.7),
    "CO2": (3.69, -0.3838, 964.0, 1.86e6),
    "argon": (6.33e-4, 0.6221, 70.0, 0.0),
    "nitrogen": (3.3143e-4, 0.7722, 16.323, 373.72),
    "helium": (2.26e-3, 0.7305, -18.63, 440.0),
}
# Critical temperature (K), critical pressure (Pa), acentric factor: CoolProp 8.0.0.
CRITICAL = {
    "air": (132.53, 3.786e6, 0.0335),
    "CO2": (304.13, 7.3773e6, 0.22394),
    "argon": (150.69, 4.863e6, -0.00219),
    "nitrogen": (126.19, 3.3958e6, 0.0372),
    "helium": (5.1953, 2.2832e5, -0.38354),
}
GASES = tuple(CRITICAL)


@dataclass(frozen=True, eq=False)
class Mixture:
    """Gases with their shares by amount. The shares broadcast against temperature and pressure."""

    shares: dict

    @property
    def names(self):
        return tuple(self.shares)

    def mean(self, values):
        """The mean of one value for each gas, weighted by amount."""
        return sum(share * values[name] for name, share in self.shares.items())

    @property
    def molar_mass_g(self):
        return self.mean(MOLAR_MASS_G)


def mixture(gas):
    """`gas` as a Mixture: one name, or shares by amount that add up to 1, `{"CO2": 0.5, "air": 0.5}`. A Fault for anything else."""
    if isinstance(gas, Mixture):
        return gas
    shares = {gas: 1.0} if isinstance(gas, str) else dict(gas)
    for name in shares:
        one_of(name, "The gas", GASES)
    shares = {name: bounded(share, f"The share of {name}", 0, 1) for name, share in shares.items()}
    _add_up(sum(shares.values()))
    return Mixture(shares)


def _add_up(total):
    odd = np.abs(total - 1) > 1e-9
    if np.any(odd):
        raise Fault(f"The shares of the gases add up to {np.asarray(total)[odd].flat[0]:.6g}. Change one, so that they add up to 1.")
