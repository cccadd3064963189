"""Radiation of hot and warm bodies: the Planck curve, shares of bands, and what windows let through. Kelvin and micrometres."""

import numpy as np

from kit.physics.checking import bounded, one_of
from kit.physics.constants import BOLTZMANN_J_K, LIGHT_SPEED_M_S, PLANCK_J_S, STEFAN_BOLTZMANN, WIEN_UM_K

FIRST_W_UM4_M2 = 2 * np.pi * PLANCK_J_S * LIGHT_SPEED_M_S**2 * 1e24  # 2 π h c², for each µm of wavelength
SECOND_UM_K = PLANCK_J_S * LIGHT_SPEED_M_S / BOLTZMANN_J_K * 1e6  # h c / k
TERMS = np.arange(1, 41)
LONG_WAVES = (1 / 3, -1 / 8, 1 / 60, 0, -1 / 5_040, 0, 1 / 272_160, 0, -1 / 13_305_600)  # of x / (exp(x) - 1), integrated
SUN_K, FILAMENT_K, WALL_K = 5772.0, 2700.0, 310.0  # sun: IAU 2015 resolution B3; the others typical (common practice, no source)

# Where each wall turns opaque (µm): it lets pass shorter waves, takes up longer ones. Two edges, since thickness and kind
# matter. Glass as textbooks give it; plastics and water roughly, all from memory. Thin polyethylene has bands, but no edge.
WINDOWS_UM = {
    "soda-lime glass": (2.7, 4.5),
    "acrylic": (2.2, 3.0),
    "polycarbonate": (2.2, 3.5),
    "PET": (2.5, 6.0),
    "water, 1 cm": (1.1, 1.4),
    "thin polyethylene": (np.inf, np.inf),
}


def planck_w_m2_um(wavelength_um, temperature_k):
    """Power (W) from each m2 of a black body, for each µm of wavelength, into the half space.

    Planck's law, constants of CODATA 2018. Wavelengths 0.01 to 10,000 µm, temperatures 1 to 100,000 K; arrays broadcast.
    """
    wavelength = bounded(wavelength_um, "The wavelength", 0.01, 10_000, "µm")
    exponent = SECOND_UM_K / (wavelength * _kelvin(temperature_k))
    return FIRST_W_UM4_M2 / wavelength**5 / np.expm1(np.minimum(exponent, 700))


def exitance_w_m2(temperature_k):
    """Power (W) from each m2 of a black body over all wavelengths: Stefan–Boltzmann law, constant of CODATA 2018. Kelvin."""
    return STEFAN_BOLTZMANN * _kelvin(temperature_k) ** 4


def peak_um(temperature_k):
    """Wavelength (µm) at which a black body's curve (for each µm) is highest: Wien's law, constant of CODATA 2018. Kelvin."""
    return WIEN_UM_K / _kelvin(temperature_k)


def blackbody_share(temperature_k, from_um, to_um):
    """Share (0 to 1) of a black body's power between two wavelengths (µm, 0 to infinity), at kelvin. Arrays broadcast.

    Integral of Planck's law by its series: Chang & Rhee, Int. Commun. Heat Mass Transfer 11:451, 1984 (from memory).
    """
    low = bounded(from_um, "The shorter wavelength", 0, np.inf, "µm")
    high = bounded(to_um, "The longer wavelength", 0, np.inf, "µm")
    bounded(high - np.where(np.isinf(low), 0, low), "The width of the band", 0, np.inf, "µm", "Name the shorter wavelength first.")
    return share_below(high * _kelvin(temperature_k)) - share_below(low * _kelvin(temperature_k))


def share_below(wavelength_temperature_um_k):
    """Share of a black body's power at wavelengths up to λ, from the product λT (µm K, 0 to infinity).

    Two series, each where it converges fast: Chang & Rhee 1984 (see `blackbody_share`), and the power series for long waves.
    """
    product = bounded(wavelength_temperature_um_k, "The product of wavelength and temperature", 0, np.inf, "µm K")
    with np.errstate(divide="ignore"):
        x = np.minimum(SECOND_UM_K / product, 700)
    small = np.minimum(x, 1.0)
    long_waves = 1 - 15 / np.pi**4 * small**3 * np.polynomial.polynomial.polyval(small, LONG_WAVES)
    n, large = TERMS, np.maximum(x, 1.0)[..., None]
    terms = np.exp(-n * large) / n * (large**3 + 3 * large**2 / n + 6 * large / n**2 + 6 / n**3)
    return np.where(x < 1, long_waves, 15 / np.pi**4 * terms.sum(axis=-1))[()]


def passed_share(temperature_k, window):
    """Least and most (a pair) of a black body's power that a wall of that kind lets through, at kelvin: shares, 0 to 1.

    Sharp edges instead of the true gradual ones, and no reflection (4 % at each face of glass): `WINDOWS_UM`, from memory.
    """
    edges = WINDOWS_UM[one_of(window, "The window", WINDOWS_UM)]
    return tuple(blackbody_share(temperature_k, 0, edge) for edge in edges)


def _kelvin(temperature_k):
    return bounded(temperature_k, "The temperature", 1, 100_000, "K", "Kelvin begin at 0, where ice melts at 273.15.")
