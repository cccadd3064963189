"""How a vessel fills: the share of CO2 in it after so much gas has been led in, and the gas needed for a wanted share.

Shares are by volume, 0 to 1. Volumes in litres, at the vessel's temperature and pressure. The vessel is open at the top.
"""

import numpy as np
from scipy.special import exprel

from kit.physics.checking import bounded
from kit.physics.constants import ROOM_CO2_SHARE


def mixed_share(gas_l, vessel_l, start_share=ROOM_CO2_SHARE):
    """Share of CO2 when gas mixes at once with what is there and mixture flows out: 1 - (1 - y0) exp(-v/V).

    Mass balance of a stirred vessel (derived here; the tests compare with scipy's ODE solver).
    """
    led_in, vessel, start = _volumes(gas_l, vessel_l, start_share)
    return 1 - (1 - start) * np.exp(-led_in / vessel)


def layered_share(gas_l, vessel_l, start_share=ROOM_CO2_SHARE):
    """Mean share of CO2 when gas comes in at the bottom, unmixed, and lifts the air out: v/V until the vessel is full.

    Mass balance of plug flow (derived here). The best case: real filling lies between this and `mixed_share`.
    """
    led_in, vessel, start = _volumes(gas_l, vessel_l, start_share)
    filled = np.minimum(led_in / vessel, 1)
    return filled + (1 - filled) * start


def headspace_share(gas_l, vessel_l, headspace_l, start_share=ROOM_CO2_SHARE):
    """Share of CO2 when the gas first has to drive the air out of the generator's own headspace (litres), both stirred.

    Mass balance of two stirred vessels in a row, 1 - (1 - y0)(V e^(-v/V) - H e^(-v/H)) / (V - H), written so that H = V and H = 0
    give their limits (derived here; the tests compare with scipy's ODE solver).
    """
    led_in, vessel, start = _volumes(gas_l, vessel_l, start_share)
    head = bounded(headspace_l, "The headspace", 0, np.inf, "L")
    large, small = np.maximum(vessel, head), np.maximum(np.minimum(vessel, head), 1e-12)
    late = led_in / large * exprel(-led_in * (large - small) / (small * large))
    return 1 - (1 - start) * np.exp(-led_in / large) * (1 + late)


def gas_for_mixed_share_l(share, vessel_l, start_share=ROOM_CO2_SHARE):
    """Litres needed to reach a share below 1 while mixing: V ln((1 - y0) / (1 - y)), the inverse of `mixed_share` (derived here)."""
    wanted = bounded(share, "The wanted share", 0, 0.9999, do="While mixing, the air never leaves completely.")
    _, vessel, start = _volumes(0, vessel_l, start_share)
    return vessel * np.maximum(np.log((1 - start) / (1 - wanted)), 0)


def gas_for_layered_share_l(share, vessel_l, start_share=ROOM_CO2_SHARE):
    """Litres needed to reach a share by filling from the bottom, unmixed: the inverse of `layered_share` (derived here)."""
    wanted = bounded(share, "The wanted share", 0, 1)
    _, vessel, start = _volumes(0, vessel_l, start_share)
    return vessel * np.maximum((wanted - start) / (1 - start), 0)


def gas_for_headspace_share_l(share, vessel_l, headspace_l, start_share=ROOM_CO2_SHARE):
    """Litres needed to reach a share through a generator's headspace (litres): the inverse of `headspace_share`, for one case.

    Root by Brent's method (scipy.optimize.brentq); two stirred vessels need at most what one of their joint volume needs and a
    little more (derived here).
    """
    from scipy.optimize import brentq

    wanted = bounded(share, "The wanted share", 0, 0.9999, do="While mixing, the air never leaves completely.")
    if wanted <= start_share:
        return 0.0
    most = (vessel_l + headspace_l) * (1 + np.log((1 - start_share) / (1 - wanted)))
    return brentq(lambda gas_l: headspace_share(gas_l, vessel_l, headspace_l, start_share) - wanted, 0, most)


def led_in_l(total_l, after_s, fizz_s=40.0):
    """Litres that have come so many seconds after the start, when the fizzing dies away as exp(-t / fizz_s).

    One exponential is our sketch of a reaction that slows as it runs out (our estimate, no source): 40 s leaves 5 % after 2 min.
    """
    total, after = bounded(total_l, "The gas", 0, np.inf, "L"), bounded(after_s, "The time", 0, np.inf, "s")
    return total * -np.expm1(-after / bounded(fizz_s, "The time of fizzing", 1, 3_600, "s"))


def _volumes(gas_l, vessel_l, start_share):
    led_in = bounded(gas_l, "The gas led in", 0, np.inf, "L")
    vessel = bounded(vessel_l, "The vessel", 0.001, np.inf, "L")
    return led_in, vessel, bounded(start_share, "The share at the start", 0, 0.9999)
