"""The mouth of an open vessel: one flow that carries gas and heat out of it alike, and the film that ends it.

Warm air inside is lighter than the room's air and changes places with it. A gas heavier than room air lies still; then only
diffusion, moving room air and the warm card's plume take it out, slowly.
"""

import numpy as np

from kit.physics.checking import bounded
from kit.physics.constants import GRAVITY_M_S2, MOLAR_MASS_G, ROOM_K, ZERO_C_K
from kit.physics.gas import gases, mixture
from kit.physics.heat.convection import layer_lifetime_s

EXCHANGE = 0.055  # flat opening between two rooms of unlike density; Epstein 1988 (abstract read, number from memory)
EXCHANGE_SPREAD = (0.5, 2.0)  # of EXCHANGE, for a mouth of 6 to 8 cm under a rim (our estimate, no source)
FILM_W_M2_K = 2.6  # thin film with air on both sides (our estimate, no source)
AIR_J_M3_K = float(gases.density_kg_m3("air", ROOM_K - ZERO_C_K) * gases.heat_capacity_j_kg_k("air", ROOM_K - ZERO_C_K))


def heavier_by(gas):
    """By what part a pure gas is heavier than air at the same temperature: M / M_air - 1 (no unit). Ideal gas law; CO2 0.519."""
    return mixture(gas).molar_mass_g / MOLAR_MASS_G["air"] - 1


def lighter_by(rise_k, share=0.0, heavier=0.0):
    """By what part gas in the vessel is lighter than the room's air: 1 - (1 + heavier · share) / (1 + rise / T_room). No unit.

    Ideal gas law at equal pressure, room at 21 °C. `rise_k` over the room (K), `share` (0 to 1) of a gas `heavier_by` so much.
    Negative where the gas is heavier. Arrays broadcast.
    """
    return 1 - (1 + heavier * share) / (1 + rise_k / ROOM_K)


def exchange_m3_s(lighter, mouth_m, strength=1.0):
    """Air (m3/s) that changes places through an open mouth: 0.055 · strength · (g · lighter · D⁵)^½; none where gas is heavier.

    Epstein, J. Heat Transfer 110:885, 1988: brine over water through a thin flat opening (abstract read, number from memory). For a
    mouth of `mouth_m` (m) under a rim take a `strength` of half to twice, for a straight jar one to three times (our estimate, no
    source). `lighter` as from `lighter_by` (no unit).
    """
    return strength * EXCHANGE * np.sqrt(GRAVITY_M_S2 * np.maximum(lighter, 0) * mouth_m**5)


def diffusion_m3_s(gas, volume_l, depth_m):
    """Flow (m3/s) that would empty the vessel as slowly as diffusion does: V π² D / (4 L²), of `volume_l` (L) and `depth_m` (m).

    Slowest mode of the diffusion equation, `kit.physics.heat.convection.layer_lifetime_s` (Crank 1975). 1.5 L and 19 cm: 1.6 mL/s.
    """
    return 1e-3 * volume_l / layer_lifetime_s(gas, depth_m)


def film_w_per_k(mouth_m):
    """Heat (W/K) through a film over the mouth (m across): 2.6 W/m2/K (our estimate, no source), 0.01 W/K for 7 cm. No gas passes."""
    return FILM_W_M2_K * np.pi / 4 * mouth_m**2


def flip_share(rise_k, gas="CO2"):
    """Share (0 to 1) under which gas `rise_k` (K) over the room weighs as little as the room's air, so that air comes in again.

    Ideal gas law, room at 21 °C (derived here): CO2 0.05 at 8 K, 0.10 at 15 K. A gas no heavier than air never holds: 1.
    """
    heavier = heavier_by(gas)
    rise = bounded(rise_k, "The rise over the room", 0, 200, "K")
    return np.minimum(rise / ROOM_K / heavier, 1.0) if heavier > 0 else np.ones_like(rise)
