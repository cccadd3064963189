"""Properties of air, CO2, argon, nitrogen, helium and their mixtures near room temperature and pressure.

`gas` is a name or shares by amount: "air", {"CO2": 0.5, "air": 0.5}; shares, temperatures and pressures may be arrays that
broadcast. Between 280 and 340 K at 101,325 Pa the pure gases agree with CoolProp 8.0.0 to 0.03 % in density, 0.5 % in heat
capacity, 0.7 % in viscosity and 1.4 % in conductivity (computed; the tests hold 0.5, 1, 2 and 2 %).
"""

import numpy as np

from kit.physics.checking import bounded
from kit.physics.constants import GAS_CONSTANT, MOLAR_MASS_G, STANDARD_PRESSURE_PA, ZERO_C_K
from kit.physics.gas.gasdata import CONDUCTIVITY, CRITICAL, HEAT_CAPACITY, mixture, VISCOSITY


def density_kg_m3(gas, temperature_c, pressure_pa=STANDARD_PRESSURE_PA):
    """Mass of a cubic metre (kg/m3) at °C and Pa.

    Virial equation cut after the second term: p (V/n - B) = R T, with B by Abbott's form of Pitzer's correlation (Smith, Van Ness
    & Abbott, Introduction to Chemical Engineering Thermodynamics, 7th ed., 2005, eq. 3.65, 3.66), averaged by amount.
    """
    mixed, kelvin, pressure = _conditions(gas, temperature_c, pressure_pa)
    return pressure * mixed.molar_mass_g / 1000 / (GAS_CONSTANT * kelvin + _virial(mixed, kelvin) * pressure)


def heat_capacity_j_kg_k(gas, temperature_c, pressure_pa=STANDARD_PRESSURE_PA):
    """Heat (J) that warms a kilogram by a kelvin at constant pressure (Pa), at °C.

    Polynomials of the ideal gas (Poling, Prausnitz & O'Connell, 2001, appendix A) and the virial equation's departure from it,
    -p T B'' (Smith, Van Ness & Abbott, 2005, section 6.2). For CO2 the departure is 0.8 %.
    """
    mixed, kelvin, pressure = _conditions(gas, temperature_c, pressure_pa)
    ideal = GAS_CONSTANT * mixed.mean({name: np.polynomial.polynomial.polyval(kelvin, HEAT_CAPACITY[name]) for name in mixed.names})
    return 1000 * (ideal - pressure * kelvin * _virial_bend(mixed, kelvin)) / mixed.molar_mass_g


def viscosity_pa_s(gas, temperature_c):
    """Viscosity (Pa s) at °C and about one atmosphere.

    Perry's Chemical Engineers' Handbook, 8th ed., 2008, table 2-312; mixtures by Wilke, J. Chem. Phys. 18:517, 1950.
    """
    mixed, kelvin, _ = _conditions(gas, temperature_c, STANDARD_PRESSURE_PA)
    pure = {name: _fitted(kelvin, VISCOSITY[name]) for name in mixed.names}
    return _blended(mixed, pure, pure)


def conductivity_w_m_k(gas, temperature_c):
    """Conductivity for heat (W/m/K) at °C and about one atmosphere.

    Perry's Chemical Engineers' Handbook, 8th ed., 2008, table 2-314; mixtures by Wassiljewa's rule with the weights of Mason &
    Saxena, Phys. Fluids 1:361, 1958.
    """
    mixed, kelvin, _ = _conditions(gas, temperature_c, STANDARD_PRESSURE_PA)
    pure = {name: _fitted(kelvin, CONDUCTIVITY[name]) for name in mixed.names}
    return _blended(mixed, pure, {name: _fitted(kelvin, VISCOSITY[name]) for name in mixed.names})


def expansion_per_k(gas, temperature_c, pressure_pa=STANDARD_PRESSURE_PA):
    """Part (1/K) by which the gas expands when it warms by a kelvin at constant pressure (Pa), at °C.

    From the virial equation of `density_kg_m3` (Smith, Van Ness & Abbott, 2005, section 3.2); an ideal gas has 1/T.
    """
    mixed, kelvin, pressure = _conditions(gas, temperature_c, pressure_pa)
    steeper = GAS_CONSTANT + _virial_slope(mixed, kelvin) * pressure
    return steeper / (GAS_CONSTANT * kelvin + _virial(mixed, kelvin) * pressure)


def prandtl_number(gas, temperature_c, pressure_pa=STANDARD_PRESSURE_PA):
    """Viscosity times heat capacity over conductivity (no unit), at °C and Pa: how fast motion spreads beside heat.

    Definition as in Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, table 6.2 (from memory).
    """
    carried = viscosity_pa_s(gas, temperature_c) * heat_capacity_j_kg_k(gas, temperature_c, pressure_pa)
    return carried / conductivity_w_m_k(gas, temperature_c)


def _conditions(gas, temperature_c, pressure_pa):
    """Mixture, kelvin and pascal, each refused where the correlations (sources: see `kit.physics.gas.gasdata`) don't reach.

    -50 to 200 °C; 1,000 to 300,000 Pa, where the second virial term is enough.
    """
    kelvin = bounded(temperature_c, "The temperature", -50, 200, "°C") + ZERO_C_K
    return mixture(gas), kelvin, bounded(pressure_pa, "The pressure", 1_000, 300_000, "Pa")


def _fitted(kelvin, coefficients):
    a, b, c, d = coefficients
    return a * kelvin**b / (1 + c / kelvin + d / kelvin**2)


def _blended(mixed, pure, viscosity):
    """Sum of x_i p_i / sum of x_j phi_ij, with Wilke's weights phi, which Mason and Saxena take for conductivity, too."""
    total = 0
    for name, share in mixed.shares.items():
        others = sum(other * _wilke(name, neighbour, viscosity) for neighbour, other in mixed.shares.items())
        total = total + share * pure[name] / others
    return total


def _wilke(name, other, viscosity):
    heavy = MOLAR_MASS_G[name] / MOLAR_MASS_G[other]
    return (1 + np.sqrt(viscosity[name] / viscosity[other]) * heavy**-0.25) ** 2 / np.sqrt(8 * (1 + heavy))


def _virial(mixed, kelvin):
    """Second virial coefficient B (m3/mol)."""
    return _pitzer(mixed, lambda t, _: 0.083 - 0.422 / t**1.6, lambda t, _: 0.139 - 0.172 / t**4.2, kelvin)


def _virial_slope(mixed, kelvin):
    """dB/dT (m3/mol/K)."""
    return _pitzer(mixed, lambda t, tc: 0.6752 / t**2.6 / tc, lambda t, tc: 0.7224 / t**5.2 / tc, kelvin)


def _virial_bend(mixed, kelvin):
    """d2B/dT2 (m3/mol/K2)."""
    return _pitzer(mixed, lambda t, tc: -1.75552 / t**3.6 / tc**2, lambda t, tc: -3.75648 / t**6.2 / tc**2, kelvin)


def _pitzer(mixed, simple, acentric, kelvin):
    """R Tc/pc (simple + omega · acentric) for each gas, averaged by amount: for CO2 in air within 0.1 % of the full rule."""

    def one(critical_k, critical_pa, omega):
        t = kelvin / critical_k
        return GAS_CONSTANT * critical_k / critical_pa * (simple(t, critical_k) + omega * acentric(t, critical_k))

    return mixed.mean({name: one(*CRITICAL[name]) for name in mixed.names})
