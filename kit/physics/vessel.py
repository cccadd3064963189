"""A vessel under a lamp: two heat stores (gas, wall), a room, and a thermometer that lags. Solved in closed form."""

from dataclasses import dataclass
from math import inf, sqrt

import numpy as np
from scipy.special import exprel

from kit.faults import Fault
from kit.physics.checking import bounded

# What each part of a vessel may be: (in words, lowest, highest, unit).
LIMITS = {
    "gas_j_per_k": ("The heat capacity of the gas", 0.01, 1e5, "J/K"),
    "wall_j_per_k": ("The heat capacity of the wall", 0.01, 1e5, "J/K"),
    "gas_to_wall_w_per_k": ("The conductance from gas to wall", 1e-4, 1e3, "W/K"),
    "wall_to_room_w_per_k": ("The conductance from wall to room", 1e-4, 1e3, "W/K"),
    "probe_lag_s": ("The thermometer's lag", 0, 1e4, "s"),
}
NO_LAG_S, LONGEST_S = 1e-6, 864_000  # a shorter lag is none; ten days


@dataclass(frozen=True)
class Vessel:
    """Heat capacities in J/K, conductances in W/K, and the thermometer's lag in s. All temperatures are rises over the room, in K.

    The gas store holds the gas and whatever inside stays at its temperature; the wall store passes heat to the room. A Fault
    names a value that can't be. The values here are plausible for 1.5 L (reckoned, no source).
    """

    gas_j_per_k: float = 2.0
    wall_j_per_k: float = 120.0
    gas_to_wall_w_per_k: float = 0.26
    wall_to_room_w_per_k: float = 0.5
    probe_lag_s: float = 0.0

    def __post_init__(self):
        for name, limits in LIMITS.items():
            bounded(getattr(self, name), *limits)


@dataclass(frozen=True)
class Stage:
    """A stretch of time in which nothing changes: from `start_s` on this vessel takes up `gas_w` inside and `wall_w` in its wall (W).

    `probe_k` is how far the lamp alone keeps the thermometer above the gas (K).
    """

    start_s: float
    vessel: Vessel
    gas_w: float
    wall_w: float
    probe_k: float = 0.0

    def __post_init__(self):
        _refuse_powers(self.gas_w, self.wall_w)


def warming(vessel, times_s, gas_w, wall_w, *, start_k=(0.0, 0.0), probe_k=0.0):
    """Rise over the room (K) of gas, wall and thermometer at `times_s`: shape (3, readings).

    Constant lamp powers (W) since time 0; `start_k` holds the rises of gas and wall, and of the thermometer if it differs from the gas.
    A Fault for a time or power that can't be. Lumped energy balance, C dT/dt = power - conductance x difference, solved by its
    eigenvalues (Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, ch. 5, for one store; two stores are our algebra).
    """
    start = np.array([*start_k[:2], start_k[-1] if len(start_k) == 3 else start_k[0]], float)
    return _rises(Stage(0, vessel, gas_w, wall_w, probe_k), _checked_times(times_s), start)


def steady_rise(vessel, gas_w, wall_w):
    """(gas, wall): rises over the room (K) at which as much heat leaves as the lamp brings (W): the balance of `warming` (derived here)."""
    _refuse_powers(gas_w, wall_w)
    return _steady(vessel, gas_w, wall_w)


def time_constants(vessel):
    """(quick, slow) in s: times in which a disturbance of gas and wall falls to 1/e: 1/eigenvalues of `warming` (derived here)."""
    into_gas, into_wall, out = _rates(vessel)
    total = into_gas + into_wall + out
    quick = (total + sqrt((into_gas - into_wall - out) ** 2 + 4 * into_gas * into_wall)) / 2
    return 1 / quick, quick / (into_gas * out)


def energy(vessel, times_s, gas_w, wall_w, *, start_k=(0.0, 0.0)):
    """Joules (supplied, stored, lost) since time 0 at each of `times_s`: supplied = stored + lost, the first law of thermodynamics.

    Powers in W, constant. `lost` is the closed integral of what passes from wall to room, not a remainder.
    """
    times_s = _checked_times(times_s)
    gas, wall, _ = warming(vessel, times_s, gas_w, wall_w, start_k=start_k)
    stored = vessel.gas_j_per_k * (gas - start_k[0]) + vessel.wall_j_per_k * (wall - start_k[1])
    final = steady_rise(vessel, gas_w, wall_w)
    rates, parts = _modes(vessel, np.subtract(start_k[:2], final))
    wall_k_s = final[1] * times_s - (parts[:, 1] / rates) @ np.expm1(-np.outer(rates, times_s))
    return (gas_w + wall_w) * times_s, stored, vessel.wall_to_room_w_per_k * wall_k_s


def course(stages, times_s):
    """Rise over the room (K) of gas, wall and thermometer through `stages` (in order of time): shape (3, readings).

    `times_s` ascend from the first stage's start or later. Exact for stages in which nothing changes (derived here, from `warming`).
    """
    times_s = _checked_times(times_s)
    edges = np.array([stage.start_s for stage in stages])
    if (np.diff(edges) <= 0).any() or (len(times_s) and times_s[0] < edges[0]) or (np.diff(times_s) < 0).any():
        raise Fault("Stages and times must run forward, and no time may come before the first stage.")
    bounds = np.searchsorted(times_s, [*edges[1:], inf])
    pieces, state, first = [], np.zeros(3), 0
    for stage, last, end_s in zip(stages, bounds, [*edges[1:], edges[-1]]):
        moments = np.append(times_s[first:last], end_s) - stage.start_s
        rises = _rises(stage, moments, state)
        pieces.append(rises[:, :-1])
        state, first = rises[:, -1], last
    return np.hstack(pieces)


def _rises(stage, times_s, start_k):
    """`warming` of one stage, times counted from its start: shape (3, readings)."""
    vessel, final = stage.vessel, np.array(_steady(stage.vessel, stage.gas_w, stage.wall_w))
    rates, parts = _modes(vessel, start_k[:2] - final)
    stores = final[:, None] + parts.T @ np.exp(-np.outer(rates, times_s))
    felt = stores[0] + stage.probe_k
    if vessel.probe_lag_s > NO_LAG_S:
        felt = _lagged(1 / vessel.probe_lag_s, times_s, final[0] + stage.probe_k, start_k[2], zip(rates, parts[:, 0]))
    return np.vstack([stores, felt])


def _steady(vessel, gas_w, wall_w):
    wall = (gas_w + wall_w) / vessel.wall_to_room_w_per_k
    return wall + gas_w / vessel.gas_to_wall_w_per_k, wall


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
