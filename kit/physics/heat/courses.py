"""Vessels followed in time: heat and gas together, through stages of lamp, gas, film and bath. Many vessels at once.

In each step the flow through the mouth and the gas's share are held at their values in the middle of the step, and the two heat
stores are then solved exactly. Steps begin at half a second after each change, grow to `longest_step_s`, and are taken anew, shorter,
where a mouth comes to life. Where the model is linear (mouth shut) both stores are exact; with an open mouth they stay, and the
thermometer too, within 0.01 K of an adaptive solver (the tests compare).
"""

from dataclasses import dataclass

import numpy as np

from kit.physics.constants import GRAVITY_M_S2, ROOM_K
from kit.physics.heat.contents import INFRARED_POWER, LIGHT_POWER
from kit.physics.heat.mouth import AIR_J_M3_K, EXCHANGE, film_w_per_k
from kit.physics.heat.vessel import NO_LAG_S

FIRST_STEP_S, GROWTH, SHORTEST_S = 0.5, 1.25, 1e-6
CAUSES = "mdcabeh"  # mouth, probe, heat carried, lamp light, infrared, cold gas, heat capacity of the gas
CARD_KEEPS = 0.5  # of the heat that a gas carries less from the warm card, the part that the card sends to the wall instead (our estimate)


@dataclass(frozen=True, eq=False)
class Stage:
    """What holds until `end_s`. Powers in W, rises over the room in K, flows in m3/s. Arrays broadcast over the vessels.

    gas_w, wall_w: taken up by gas and wall; light_w: light that passes through the gas. probe_k: how far the lamp alone keeps a
    thermometer in air above it. fill_m3_s: gas led in at the start, less and less as exp(-t / fill_fades_s), a share fill_share of
    it not air, fill_k over the room, plain_fill_k if it were the control's; from_below: it lifts the air out unmixed. film: 1 where
    film lies over the mouth. stirred_m3_s: what a fan blows out, stirred: how many times more heat it carries.
    """

    end_s: float
    gas_w: float = 0.0
    wall_w: float = 0.0
    light_w: float = 0.0
    probe_k: float = 0.0
    fill_m3_s: float = 0.0
    fill_fades_s: float = np.inf
    fill_share: float = 0.0
    fill_k: float = 0.0
    plain_fill_k: float = 0.0
    from_below: float = 0.0
    film: float = 0.0
    stirred_m3_s: float = 0.0
    stirred: float = 1.0


@dataclass(frozen=True, eq=False)
class Course:
    """Rises over the room (K) of gas, wall and thermometer at `times_s`: shape (times, vessels ...); with several `at_work`, (times,
    at_work, vessels ...). `share` of the gas (0 to 1) and `flow_m3_s` through the mouth: (times, vessels ...)."""

    times_s: np.ndarray
    gas_k: np.ndarray
    wall_k: np.ndarray
    probe_k: np.ndarray
    share: np.ndarray
    flow_m3_s: np.ndarray

    def at(self, times_s, what="probe_k"):
        """One of the courses at other times (s), straight between steps: shape (times, ...)."""
        values = getattr(self, what)
        place = np.clip(np.searchsorted(self.times_s, times_s), 1, len(self.times_s) - 1)
        before, after = self.times_s[place - 1], self.times_s[place]
        part = ((np.asarray(times_s) - before) / (after - before)).reshape(-1, *[1] * (values.ndim - 1))
        return values[place - 1] + part * (values[place] - values[place - 1])


def course(vessel, contents, stages, *, at_work=(CAUSES,), wall_start_k=0.0, longest_step_s=10.0, lively_w_per_k=0.0015):
    """`Course` of vessels that start filled with air at the room's temperature, through `stages` in order of time (s, W, K).

    `wall_start_k`: how far the wall store stands over the room at the start (K): that of a vessel put into warm water holds the water.

    `at_work`: letters of what the gas may do (`CAUSES`), several sets side by side; the first set moves the gas in all of them, so
    that each can be seen alone under one and the same share. `lively_w_per_k`: a change of the mouth's conductance in one step (W/K) that
    calls for a shorter one. Energy and gas balance of two stores (derived here).
    """
    shape = np.broadcast_shapes(*(np.shape(part) for thing in (vessel, contents, *stages) for part in vars(thing).values()))
    sets = {cause: np.array([float(cause in letters) for letters in at_work]).reshape(-1, *[1] * len(shape)) for cause in CAUSES}
    start = np.zeros((len(at_work), *shape))
    times, states, flows = [0.0], [(start, start + wall_start_k, start, np.zeros(shape))], [np.zeros(shape)]
    limits = longest_step_s, lively_w_per_k
    for stage in stages:
        for time_s, state, flow in _followed(_stepper(vessel, contents, stage, sets), states[-1], (times[-1], stage.end_s), limits):
            times.append(time_s)
            states.append(state)
            flows.append(np.broadcast_to(flow[0], shape))
    heat = [np.array([each[place] for each in states]) for place in range(3)]
    heat = heat if len(at_work) > 1 else [each[:, 0] for each in heat]
    return Course(np.array(times), *heat, np.array([each[3] for each in states]), np.array(flows))


def _followed(stepper, state, span_s, limits):
    """(time, state, flow) after each step of a span (s). Steps grow by a quarter; one in which a mouth wakes is taken anew, shorter."""
    (flow_at, step), (time_s, end_s), (longest_s, lively) = stepper, span_s, limits
    flow, before, length, start_s = flow_at(*state), None, min(FIRST_STEP_S, longest_s), time_s
    while time_s < end_s - SHORTEST_S:
        length = min(length, end_s - time_s)
        later = step(state, flow, before, (time_s - start_s, length))
        flow_later = flow_at(*later)
        if AIR_J_M3_K * np.abs(flow_later - flow).max() > lively and length > FIRST_STEP_S:
            length = max(length / 4, FIRST_STEP_S)
            continue
        state, before, flow, time_s = later, (flow, length), flow_later, time_s + length
        yield time_s, state, flow
        length = min(length * GROWTH, longest_s)


def _stepper(vessel, contents, stage, on):
    """(flow of a state; the state after one step of this stage, from its flow, that of the step before, and the step's span)."""
    flow_at, shares_after = _flow(vessel, contents, stage, on), _shares(vessel, stage)
    stores_after, felt_after = _stores(vessel, contents, stage, on), _thermometer(vessel, contents, stage, on)

    def step(state, flow, before, span_s):
        (gas, wall, probe, share), (since, length) = state, span_s
        pouring = np.exp(-(since + length / 2) / stage.fill_fades_s)
        middle = flow if before is None else np.maximum(flow + (flow - before[0]) * (length / (2 * before[1])), 0)
        later = shares_after(share, middle[0], pouring, length)
        gas_later, wall_later = stores_after((gas, wall), (share + later) / 2, middle, pouring, length)
        return gas_later, wall_later, felt_after(probe, (gas, gas_later), (share, later), length), later

    return lambda gas, wall, probe, share: flow_at(gas, share), step


def _flow(vessel, contents, stage, on):
    """The one flow (m3/s) through the mouth: what changes places, what diffuses, draws and blows out."""
    lively = (1 - stage.film) * vessel.exchange * EXCHANGE * np.sqrt(GRAVITY_M_S2 * np.asarray(vessel.mouth_m, float) ** 5)
    drawn = contents.diffusion_m3_s + vessel.draught_m3_s + vessel.plume_m3_j * stage.gas_w
    still = (1 - stage.film) * (np.where(np.asarray(vessel.mouth_m) > 0, drawn, 0) + stage.stirred_m3_s)
    heavier = contents.heavier * on["m"]
    return lambda gas, share: lively * np.sqrt(np.maximum(1 - (1 + heavier * share) / (1 + gas / ROOM_K), 0)) + still


def _shares(vessel, stage):
    """Share of gas after a step: led in pure or lifting the air out, carried out with the flow; exact while the flow holds."""
    volume, led_in = 1e-3 * vessel.volume_l, np.asarray(stage.fill_m3_s, float)
    pushed_out = led_in * (1 - stage.from_below)

    def after(share, flow, pouring, length):
        leaving = np.maximum((flow + pushed_out * pouring) / volume, 1e-12)
        final = led_in * pouring * stage.fill_share / volume / leaving
        return np.minimum(final + (share - final) * np.exp(-leaving * length), 1)

    return after


def _stores(vessel, contents, stage, on):
    """Gas and wall (K) after a step, exact for constant coefficients: `kit.physics.heat.vessel`, with the mouth and a bath."""
    air_j = 1e-3 * np.asarray(vessel.volume_l) * AIR_J_M3_K
    outside = vessel.wall_to_room_w_per_k
    within, cover = vessel.gas_to_wall_w_per_k * stage.stirred, stage.film * film_w_per_k(np.asarray(vessel.mouth_m, float))
    poured = AIR_J_M3_K * stage.fill_m3_s * (1 + (contents.heat - 1) * stage.fill_share * on["h"])
    pours = poured * np.where(on["e"], stage.fill_k, stage.plain_fill_k)
    lies = (1 - contents.layered) * on["m"] * (1 - stage.film) * (stage.stirred == 1)
    infrared, light = contents.infrared_w_per_k * on["b"], stage.light_w * contents.light_taken * on["a"]

    def after(rises, share, flow, pouring, length):
        less = (1 - contents.carried) * on["c"] * share
        inner = within * (1 - less) * (1 - lies * share) + infrared * share**INFRARED_POWER
        capacity = vessel.gas_j_per_k + air_j * (contents.heat - 1) * on["h"] * share
        kept = CARD_KEEPS * less * stage.gas_w
        powers = stage.gas_w - kept + light * share**LIGHT_POWER + pours * pouring, stage.wall_w + kept
        leaving = AIR_J_M3_K * flow + cover + poured * pouring
        return _solved(rises, powers, (inner, leaving, outside), (capacity, vessel.wall_j_per_k), length)

    return after


def _solved(rises, powers, conductances, capacities, length):
    """Two coupled stores after `length` s: steady state plus what is left of the way there, by the two eigenvalues."""
    (gas, wall), (inner, leaving, outside), (gas_j, wall_j) = rises, conductances, capacities
    a, b, c, d = (inner + leaving) / gas_j, inner / gas_j, inner / wall_j, (inner + outside) / wall_j
    brought, warmed = powers[0] / gas_j, powers[1] / wall_j
    determinant = a * d - b * c
    gas_end, wall_end = (d * brought + b * warmed) / determinant, (c * brought + a * warmed) / determinant
    middle, apart = (a + d) / 2, (a - d) / 2
    root = np.sqrt(apart * apart + b * c)
    slow, quick = np.exp((root - middle) * length), np.exp(-(root + middle) * length)
    even, odd = (slow + quick) / 2, (slow - quick) / (2 * root)
    gas, wall = gas - gas_end, wall - wall_end
    return gas_end + even * gas + odd * (b * wall - apart * gas), wall_end + even * wall + odd * (c * gas + apart * wall)


def _thermometer(vessel, contents, stage, on):
    """The thermometer after a step: it follows the gas and its own excess from the lamp with a lag, exact for a straight course."""
    lag, gain = np.maximum(vessel.probe_lag_s, NO_LAG_S), (contents.probe_gain - 1) * on["d"]

    def after(probe, gases, shares, length):
        start, end = (rise + stage.probe_k * (1 + gain * share) for rise, share in zip(gases, shares))
        behind = lag * (end - start) / length
        return end - behind + (probe - start + behind) * np.exp(-length / lag)

    return after
