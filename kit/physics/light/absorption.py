"""How much radiation a short path of CO2 takes up and gives out: band shares, emissivity, exchange with the walls."""

import numpy as np

from kit.physics.checking import bounded
from kit.physics.constants import STEFAN_BOLTZMANN, ZERO_C_K
from kit.physics.light.radiation import blackbody_share

# Bands where CO2 takes up most (µm); textbook values, from memory.
CO2_BANDS_UM = {"2.7 µm": (2.65, 2.85), "4.3 µm": (4.2, 4.45), "15 µm": (13.0, 17.0)}
# Leckner, Combustion and Flame 19:33, 1972, CO2 at 1 bar; rows: powers of log10(pL / bar cm), columns: powers of T / 1000 K.
# Coefficients as a public program prints them from Modest, Radiative Heat Transfer: table 10.4 in the 2nd ed., 2003, table 11.4 in the
# 3rd, 2013 (numbers of tables from memory).
LECKNER = np.array(
    [
        [-3.9893, 2.7669, -2.1081, 0.39163],
        [1.2710, -1.1090, 1.0195, -0.21897],
        [-0.23678, 0.19731, -0.19544, 0.044644],
    ]
)
# Around Leckner's value: from 300 to 400 K his correlation is stretched. At 10 cm and 300 K it gives 0.082; Edwards' wide bands
# 0.089, Sasamori's fit for the atmosphere (1968, for diffuse radiation) 0.10. Rounded outwards: 0.07 to 0.11.
EMISSIVITY_SPREAD = (0.85, 1.35)


def co2_band_shares(temperature_k):
    """Shares of a black body's power in CO2's bands near 2.7, 4.3 and 15 µm (last axis), at kelvin.

    Planck's law (`kit.physics.light.radiation.blackbody_share`) over `CO2_BANDS_UM`. An upper limit of what CO2 can take up there.
    """
    return np.stack([blackbody_share(temperature_k, *edges) for edges in CO2_BANDS_UM.values()], axis=-1)


def co2_emissivity(path_m, share=1.0, temperature_c=26.85):
    """Emissivity (0 to 1) of CO2 over a straight path (m, 0.001 to 3) at °C and one atmosphere; `share` by volume, 0.0001 to 1.

    Leckner, Combustion and Flame 19:33, 1972, without his pressure correction (under 1 % here); below 127 °C outside his range,
    so give it with `co2_emissivity_range`.
    """
    warm = bounded(temperature_c, "The temperature", 0, 2_500, "°C") + ZERO_C_K
    return _leckner(_optical_path(path_m, share), warm)


def co2_emissivity_range(path_m, share=1.0, temperature_c=26.85):
    """Least and most (a pair) that the emissivity may be: -15 % and +35 % around `co2_emissivity`, same arguments (m, share, °C).

    The spread of three published correlations (Leckner 1972, Edwards 1976, Sasamori 1968) at 10 cm and 300 K, rounded outwards.
    """
    middle = co2_emissivity(path_m, share, temperature_c)
    return tuple(middle * factor for factor in EMISSIVITY_SPREAD)


def lamp_absorbed_share(path_m, share=1.0, lamp_k=2700.0, temperature_c=26.85):
    """Share (0 to 1) of a lamp's radiation that CO2 at °C takes up over a path (m): no wall in front, so an upper end.

    Hottel's rule: emissivity at the lamp's temperature (K, 400 to 3,000) for the path times T_lamp / T_gas, times
    (T_gas / T_lamp)^0.65; Modest, Radiative Heat Transfer, the chapter on molecular gases (10 in the
    2nd ed., 11 in the 3rd, from memory). Spread as `co2_emissivity_range`.
    """
    gas_k = bounded(temperature_c, "The temperature", 0, 200, "°C") + ZERO_C_K
    lamp = bounded(lamp_k, "The lamp's temperature", 400, 3_000, "K")
    return _leckner(_optical_path(path_m, share) * lamp / gas_k, lamp) * (gas_k / lamp) ** 0.65


def exchange_w_m2_k(emissivity, temperature_c=31.85):
    """Heat (W/m2/K) that a gas of that emissivity (0 to 1) exchanges with black walls for each K between them: 4 ε σ T³.

    Derivative of the Stefan–Boltzmann law (constant of CODATA 2018), for small differences around °C.
    """
    warm = bounded(temperature_c, "The temperature", -50, 200, "°C") + ZERO_C_K
    return 4 * bounded(emissivity, "The emissivity", 0, 1) * STEFAN_BOLTZMANN * warm**3


def _optical_path(path_m, share):
    """Pressure times length (bar cm) at one atmosphere."""
    path = bounded(path_m, "The path", 0.001, 3, "m")
    return 1.01325 * 100 * path * bounded(share, "The share of CO2", 1e-4, 1)


def _leckner(bar_cm, kelvin):
    paths, thousands = np.broadcast_arrays(np.log10(bar_cm), kelvin / 1000)
    return np.exp(np.polynomial.polynomial.polyval2d(paths, thousands, LECKNER))
