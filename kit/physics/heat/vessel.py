"""A vessel under a lamp: two heat stores (gas, wall), a room, a mouth, and a thermometer that lags.

With the mouth shut all is linear and solved here in closed form; an open mouth passes more the warmer the air inside, and
`kit.physics.heat.courses` follows it in steps. All temperatures are rises over the room, in K.
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import exprel

from kit.faults import Fault
from kit.physics.checking import bounded
from kit.physics.constants import ROOM_K
from kit.physics.heat.mouth import AIR_J_M3_K, exchange_m3_s, lighter_by

# What each part of a vessel may be: (in words, lowest, highest, unit).
LIMITS = {
    "gas_j_per_k": ("The heat capacity of the gas", 0.01, 1e5, "J/K"),
    "wall_j_per_k": ("The heat capacity of the wall", 0.01, 1e5, "J/K"),
    "gas_to_wall_w_per_k": ("The conductance from gas to wall", 1e-4, 1e3, "W/K"),
    "wall_to_room_w_per_k": ("The conductance from wall to room", 1e-4, 1e3, "W/K"),
    "probe_lag_s": ("The thermometer's lag", 0, 1e4, "s"),
    "mouth_m": ("The width of the mouth", 0, 1, "m"),
    "exchange": ("The strength of the exchange", 0, 10, ""),
    "draught_m3_s": ("The flow that moving room air takes out", 0, 1, "m3/s"),
    "plume_m3_j": ("What the warm card's plume takes out", 0, 1, "m3/J"),
    "volume_l": ("The volume", 0.01, 1e4, "L"),
    "depth_m": ("The depth", 0.005, 5, "m"),
}
NO_LAG_S, LONGEST_S = 1e-6, 864_000  # a shorter lag is none; ten days
NEWTON_STEPS = 40


@dataclass(frozen=True, eq=False)
class Vessel:
    """Heat capacities in J/K, conductances in W/K, the thermometer's lag in s, the mouth's width in m (0: shut), L and m of the inside.

    The gas store holds the gas and whatever inside stays at its temperature; the wall store passes heat to the room. `exchange`
    scales what changes places through the mouth (`kit.physics.heat.mouth`); besides, moving room air takes out `draught_m3_s`, and the
    plume of what the lamp warms inside `plume_m3_j` for each joule (2e-6 where a fifth of its work mixes, our estimate). A Fault names
    a value that can't be. The values here are plausible for 1.5 L (our estimate, no source). Arrays are many vessels at once.
    """

    gas_j_per_k: float = 2.0
    wall_j_per_k: float = 120.0
    gas_to_wall_w_per_k: float = 0.26
    wall_to_room_w_per_k: float = 0.5
    probe_lag_s: float = 0.0
    mouth_m: float = 0.0
    exchange: float = 1.0
    draught_m3_s: float = 0.0
    plume_m3_j: float = 0.0
    volume_l: float = 1.5
    depth_m: float = 0.19

    def __post_init__(self):
        for name, limits in LIMITS.items():
            bounded(getattr(self, name), *limits)


def steady_rise(vessel, gas_w, wall_w):
    """(gas, wall): rises over the room (K) at which as much heat leaves as the lamp brings (W), of a vessel filled with air.

    Balance of both stores (derived here), the mouth's part solved by Newton's method to 1e-9 W. Arrays broadcast.
    """
    _refuse_powers(gas_w, wall_w)
    within, outside = vessel.gas_to_wall_w_per_k, vessel.wall_to_room_w_per_k
    joint = within * outside / (within + outside)  # from gas through the wall to the room
    brought = gas_w + wall_w * within / (within + outside)
    gas = np.asarray(brought / joint, float)
    for _ in range(NEWTON_STEPS if np.any(vessel.mouth_m) or np.any(vessel.draught_m3_s) else 0):
        lively = AIR_J_M3_K * exchange_m3_s(lighter_by(gas), vessel.mouth_m, vessel.exchange)
        away = joint + lively + AIR_J_M3_K * vessel.draught_m3_s
        gas = gas - (away * gas - brought) / (away + lively / 2 / (1 + gas / ROOM_K))
    wall = (wall_w + within * gas) / (within + outside)
    return gas[()], wall[()] if np.ndim(wall) else float(wall)


def powers_out(vessel, gas_k, wall_k):
    """(through the wall, through the mouth): W that leave a vessel filled with air whose gas and wall are so far (K) over the room.

    Conductance times difference for the wall, heat capacity of air times the exchange for the mouth: `kit.physics.heat.mouth`, derived here.
    """
    flow = exchange_m3_s(lighter_by(gas_k), vessel.mouth_m, vessel.exchange) + vessel.draught_m3_s
    return vessel.wall_to_room_w_per_k * wall_k, AIR_J_M3_K * flow * gas_k


def time_constants(vessel):
    """(quick, slow) in s, mouth shut: times in which what differs from the steady state falls to 1/e: 1/eigenvalues (derived here)."""
    into_gas, into_wall, out = _rates(vessel)
    total = into_gas + into_wall + out
    quick = (total + np.sqrt((into_gas - into_wall - out) ** 2 + 4 * into_gas * into_wall)) / 2
    return 1 / quick, quick / (into_gas * out)


def warming(vessel, times_s, gas_w, wall_w, *, start_k=(0.0, 0.0), probe_k=0.0):
    """Rise over the room (K) of gas, wall and thermometer at `times_s`, mouth shut: shape (3, readings).

    Constant lamp powers (W) since time 0; `start_k` holds the rises of gas and wall; `probe_k` is how far the lamp alone keeps the
    thermometer above the gas (K). A Fault for a time or power that can't be, or an open mouth. Lumped energy balance, C dT/dt =
    power - conductance x difference, solved by its eigenvalues (Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, ch. 5,
    for one store; two stores are our algebra).
    """
    times_s, final = _checked_times(times_s), np.array(_shut_rise(vessel, gas_w, wall_w))
    rates, parts = _modes(vessel, np.asarray(start_k, float) - final)
    stores = final[:, None] + parts.T @ np.exp(-np.outer(rates, times_s))
    felt = stores[0] + probe_k
    if vessel.probe_lag_s > NO_LAG_S:
        felt = _lagged(1 / vessel.probe_lag_s, times_s, final[0] + probe_k, start_k[0], zip(rates, parts[:, 0]))
    return np.vstack([stores, felt])


def energy(vessel, times_s, gas_w, wall_w, *, start_k=(0.0, 0.0)):
    """Joules (supplied, stored, lost) since time 0 at each of `times_s`, mouth shut: supplied = stored + lost, the first law.

    Powers in W, constant. `lost` is the closed integral of what passes from wall to room, not a remainder (law of thermodynamics).
    """
    times_s, final = _checked_times(times_s), _shut_rise(vessel, gas_w, wall_w)
    gas, wall, _ = warming(vessel, times_s, gas_w, wall_w, start_k=start_k)
    stored = vessel.gas_j_per_k * (gas - start_k[0]) + vessel.wall_j_per_k * (wall - start_k[1])
    rates, parts = _modes(vessel, np.subtract(start_k, final))
    wall_k_s = final[1] * times_s - (parts[:, 1] / rates) @ np.expm1(-np.outer(rates, times_s))
    return (gas_w + wall_w) * times_s, stored, vessel.wall_to_room_w_per_k * wall_k_s


def _shut_rise(vessel, gas_w, wall_w):
    if vessel.mouth_m or vessel.draught_m3_s:
        raise Fault("There is no closed formula for an open mouth. Follow it with kit.physics.course, or set mouth_m to 0.")
    return steady_rise(vessel, gas_w, wall_w)


def _rates(vessel):
    inside, outside = vessel.gas_to_wall_w_per_k, vessel.wall_to_room_w_per_k
    return inside / vessel.gas_j_per_k, inside / vessel.wall_j_per_k, outside / vessel.wall_j_per_k


def _modes(vessel, away):
    """Rates (1/s, quick and slow) and the parts of `away` (gas, wall; K) that fall with each: shape (mode, store)."""
    into_gas, into_wall, out = _rates(vessel)
    balance = np.array([[-into_gas, into_gas], [into_wall, -into_wall - out]])
    quick, slow = (1 / each for each in time_constants(vessel))
    quickly = (balance @ away + slow * away) / (slow - quick)
    return np.array([quick, slow]), np.array([quickly, away - quickly])


def _lagged(own, times_s, final_k, start_k, modes):
    """First-order lag at the rate `own` (1/s) behind the gas: what each of its modes (rate, K) and the thermometer's start leave behind."""
    followed = [part * own * times_s * np.exp(-min(rate, own) * times_s) * exprel(-abs(rate - own) * times_s) for rate, part in modes]
    return final_k + (start_k - final_k) * np.exp(-own * times_s) + sum(followed)


def _refuse_powers(*powers_w):
    for power_w in powers_w:
        bounded(power_w, "The power taken up", -1e5, 1e5, "W")


def _checked_times(times_s):
    return np.atleast_1d(bounded(times_s, "The time", 0, LONGEST_S, "s"))
