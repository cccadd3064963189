"""Air and water: the pressure at a height, the boiling point at a pressure, the vapour over water."""

import numpy as np

from kit.physics.checking import bounded
from kit.physics.constants import DRY_AIR_J_KG_K, GRAVITY_M_S2, STANDARD_PRESSURE_PA, ZERO_C_K

SEA_LEVEL_K, LAPSE_K_M = 288.15, 0.0065  # ISO 2533:1975, the layer up to 11,000 m
# Coefficients 1 to 10 of the saturation line, IAPWS R7-97(2012), table 34.
SATURATION = (
    0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7,
    0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
)  # fmt: skip


def boiling_point_c(pressure_pa):
    """Temperature (°C) at which pure water boils under `pressure_pa` (Pa, station pressure: not reduced to sea level).

    IAPWS Industrial Formulation 1997, backward saturation equation 31: IAPWS R7-97(2012). Within 0.005 K of IAPWS-95.
    A Fault outside 20,000 to 200,000 Pa, which catches a pressure given in hPa.
    """
    pressure = bounded(pressure_pa, "The pressure", 20_000, 200_000, "Pa", "If your barometer shows hPa, multiply by 100.")
    n1, n2, n3, n4, n5, n6, n7, n8, n9, n10 = SATURATION
    root = (pressure / 1e6) ** 0.25
    e, f, g = root**2 + n3 * root + n6, n1 * root**2 + n4 * root + n7, n2 * root**2 + n5 * root + n8
    d = 2 * g / (-f - np.sqrt(f**2 - 4 * e * g))
    return (n10 + d - np.sqrt((n10 + d) ** 2 - 4 * (n9 + n10 * d))) / 2 - ZERO_C_K


def vapour_pressure_pa(temperature_c):
    """Pressure (Pa) of water vapour in balance with water at `temperature_c` (0 to 120 °C).

    IAPWS Industrial Formulation 1997, saturation equation 30: IAPWS R7-97(2012). A Fault outside 0 to 120 °C.
    """
    kelvin = bounded(temperature_c, "The water's temperature", 0, 120, "°C") + ZERO_C_K
    n1, n2, n3, n4, n5, n6, n7, n8, n9, n10 = SATURATION
    t = kelvin + n9 / (kelvin - n10)
    a, b, c = t**2 + n1 * t + n2, n3 * t**2 + n4 * t + n5, n6 * t**2 + n7 * t + n8
    return 1e6 * (2 * c / (-b + np.sqrt(b**2 - 4 * a * c))) ** 4


def standard_pressure_pa(altitude_m):
    """Pressure (Pa) of the standard atmosphere at a geopotential height (m above sea level).

    ISO 2533:1975, lowest layer: p = 101,325 Pa (1 - 0.0065 h / 288.15 K)^(g / (R L)), exponent 5.2559. Weather moves the true
    pressure by about ± 3,000 Pa (common practice, no source). A Fault outside -500 to 11,000 m.
    """
    height = bounded(altitude_m, "The altitude", -500, 11_000, "m", "Give metres above sea level.")
    exponent = GRAVITY_M_S2 / (DRY_AIR_J_KG_K * LAPSE_K_M)
    return STANDARD_PRESSURE_PA * (1 - LAPSE_K_M * height / SEA_LEVEL_K) ** exponent
