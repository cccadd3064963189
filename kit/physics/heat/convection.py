"""How well a gas carries heat from a warm thing to a wall: by flow, by conduction, and as a layer that lies still."""

import numpy as np

from kit.physics.checking import bounded, one_of
from kit.physics.constants import GRAVITY_M_S2, MOLAR_MASS_G, STANDARD_PRESSURE_PA, ZERO_C_K
from kit.physics.gas import gases, mixture

MIXED_FLOW, TURBULENT_FLOW, CONDUCTION = 1 / 4, 1 / 3, 0.0  # exponents of the Rayleigh number
DIFFUSION_VOLUME = {"CO2": 26.9, "air": 19.7, "nitrogen": 18.5, "argon": 16.2, "helium": 2.67}  # Fuller, see below


def rayleigh_number(gas, excess_k, length_m, temperature_c=26.85, pressure_pa=STANDARD_PRESSURE_PA):
    """g β ΔT L³ / (ν α), no unit: the drive of warm gas to rise, over what holds it back.

    `excess_k` the temperature difference (K, 0 to 500), `length_m` the vessel's height (m, 0 to 10), properties at °C and Pa.
    Definition as in Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, eq. 9.25 (from memory).
    """
    gas, excess = mixture(gas), bounded(excess_k, "The temperature difference", 0, 500, "K")
    length = bounded(length_m, "The length", 0, 10, "m")
    density = gases.density_kg_m3(gas, temperature_c, pressure_pa)
    carried = density**2 * gases.heat_capacity_j_kg_k(gas, temperature_c, pressure_pa)
    held = gases.viscosity_pa_s(gas, temperature_c) * gases.conductivity_w_m_k(gas, temperature_c)
    drive = GRAVITY_M_S2 * gases.expansion_per_k(gas, temperature_c, pressure_pa) * excess * length**3
    return drive * carried / held


def conductance_ratio(gas, exponent=MIXED_FLOW, temperature_c=26.85, pressure_pa=STANDARD_PRESSURE_PA):
    """Heat that the gas carries to the walls over what air carries, same vessel and same temperatures (no unit).

    Conductance goes as k Ra^n / L: n = 1/4 in gentle flow, 1/3 in strong flow, 0 where the gas lies still and only conducts.
    A small vessel lies between the first two. Incropera & DeWitt, section 9.6.1 (from memory). °C, Pa; `exponent` 0 to 1/3.
    """
    gas, power = mixture(gas), bounded(exponent, "The exponent", 0, 1 / 3 + 1e-9)
    flow = rayleigh_number(gas, 1, 1, temperature_c, pressure_pa) / rayleigh_number("air", 1, 1, temperature_c, pressure_pa)
    return gases.conductivity_w_m_k(gas, temperature_c) / gases.conductivity_w_m_k("air", temperature_c) * flow**power


def equal_cooling_k(gas, temperature_c=26.85):
    """By how much (K) air at °C would have to be colder to weigh as much as this gas: how firmly a layer of it lies at the bottom.

    T (1 - M_air / M), from the ideal gas law at equal pressure (R and molar masses: `kit.physics.constants`). Negative for a gas
    lighter than air. Pure CO2: 103 K, one tenth CO2: 15 K; a lamp warms the gas by a few kelvin.
    """
    kelvin = bounded(temperature_c, "The temperature", -50, 200, "°C") + ZERO_C_K
    return kelvin * (1 - MOLAR_MASS_G["air"] / mixture(gas).molar_mass_g)


def diffusivity_m2_s(gas, temperature_c=25.0, pressure_pa=STANDARD_PRESSURE_PA):
    """Diffusion coefficient (m2/s) of a pure gas in air at °C and Pa.

    Fuller's method as given by Poling, Prausnitz & O'Connell, 2001, eq. 11-4.4 (from memory). CO2 at 25 °C: 0.157 cm2/s.
    """
    kelvin = bounded(temperature_c, "The temperature", -50, 200, "°C") + ZERO_C_K
    bar = bounded(pressure_pa, "The pressure", 1_000, 300_000, "Pa") / 1e5
    mass = 2 / (1 / mixture(one_of(gas, "The gas", DIFFUSION_VOLUME)).molar_mass_g + 1 / MOLAR_MASS_G["air"])
    size = np.cbrt(DIFFUSION_VOLUME[gas]) + np.cbrt(DIFFUSION_VOLUME["air"])
    return 1e-4 * 0.00143 * kelvin**1.75 / (bar * np.sqrt(mass) * size**2)


def layer_lifetime_s(gas, depth_m, temperature_c=25.0):
    """Time (s) in which a layer of gas in an open vessel of that depth (m, 0.001 to 10) fades to 1/e by diffusion alone, at °C.

    Slowest mode of the diffusion equation with a closed bottom and an open top: 4 L² / (π² D). Crank, The Mathematics of
    Diffusion, 2nd ed., 1975, chapter 4 (from memory). Draughts and warmth from below shorten it.
    """
    depth = bounded(depth_m, "The depth", 0.001, 10, "m")
    return 4 * depth**2 / (np.pi**2 * diffusivity_m2_s(gas, temperature_c))
