"""A heavy gas in an open vessel: how much of it is left, where it lies, and how long it holds the mouth shut."""

import numpy as np

from kit.physics.checking import bounded
from kit.physics.gas import layered_share, mixed_share
from kit.physics.heat.mouth import diffusion_m3_s, flip_share

MODES = np.arange(40)
CLOCK = np.concatenate([[0], np.geomspace(1e-4, 10, 200)])  # diffusion's time, in lifetimes of its slowest mode


def share_left(minutes, start_share, vessel, gas="CO2"):
    """Mean share (0 to 1) of the gas so many minutes after filling: start · exp(-t Q / V), lamp off and the gas heavier than the room.

    Q is the vessel's one flow: `kit.physics.heat.mouth.diffusion_m3_s` and its draught (mass balance, derived here). Arrays broadcast.
    """
    since_s = 60 * bounded(minutes, "The time", 0, np.inf, "min")
    return bounded(start_share, "The share", 0, 1) * np.exp(-since_s * _outflow(vessel, gas) / (1e-3 * vessel.volume_l))


def lasts_min(start_share, rise_k, vessel, gas="CO2"):
    """Minutes until a gas that stands `rise_k` (K) over the room is as light as the room's air, so that air comes in again.

    V / Q · ln(start / flip), with `flip_share` (mass balance and ideal gas law, derived here). 0 where it is so from the start.
    """
    ratio = np.maximum(bounded(start_share, "The share", 0, 1) / np.maximum(flip_share(rise_k, gas), 1e-9), 1)
    return 1e-3 * vessel.volume_l / _outflow(vessel, gas) * np.log(ratio) / 60


def share_over_depth(minutes, heights_m, led_in_l, vessel, *, from_below=True, gas="CO2"):
    """Share (0 to 1) of the gas at heights over the floor (m, last axis) so many minutes after filling with `led_in_l` (L), still room.

    It lies as diffusion would leave it, floor closed and mouth open, by the time its mean has come down to `share_left`: so the
    picture and the vessel's one flow tell the same (series of cosines, Crank, The Mathematics of Diffusion, 2nd ed., 1975, section
    2.3, from memory). A sketch: plume and draught are not drawn. From below, the gas first fills the lower part unmixed; else it is
    mixed with the air all the way up.
    """
    start = float((layered_share if from_below else mixed_share)(led_in_l, vessel.volume_l, 0))
    rates = (2 * MODES + 1) * np.pi / 2
    filled, pure = (start, 1.0) if from_below else (1.0, start)  # part of the depth, and the share there
    parts = 2 * pure * np.sin(rates * filled) / rates
    faded = np.exp(-np.outer(CLOCK, (2 * MODES + 1) ** 2))
    left = np.minimum(share_left(minutes, start, vessel, gas), start)
    means = np.minimum.accumulate(faded @ (parts * np.sin(rates) / rates))
    clock = np.interp(-left, -means, CLOCK)
    fading = parts * np.exp(-clock[..., None] * (2 * MODES + 1) ** 2)
    return np.clip(fading @ np.cos(np.outer(rates, np.asarray(heights_m, float) / vessel.depth_m)), 0, 1)


def _outflow(vessel, gas):
    return diffusion_m3_s(gas, vessel.volume_l, vessel.depth_m) + vessel.draught_m3_s
