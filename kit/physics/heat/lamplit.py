"""One vessel of air under a lamp: how warm it gets, how soon, and where the heat goes. Quick enough to follow a hand."""

from dataclasses import dataclass

import numpy as np

from kit.physics.heat.contents import contents_of
from kit.physics.heat.courses import course, Stage
from kit.physics.heat.vessel import powers_out, steady_rise

LONGEST_STEP_S, STEPS, LIVELY_W_PER_K = 90.0, 30, 0.02  # coarser than the bench's: within 0.02 K


@dataclass(frozen=True, eq=False)
class LampLit:
    """A vessel from the moment the lamp goes on. Rises over the room (K) of gas and wall at `times_s`, watts in and out at those times.

    `in_w` = through_wall_w + through_mouth_w + what still warms the vessel. `level_k`: where out equals in; `level_out_w`: (wall,
    mouth) there, in W; `nearly_s`: when the gas has come 95 % of the way (s).
    """

    times_s: np.ndarray
    gas_k: np.ndarray
    wall_k: np.ndarray
    in_w: float
    through_wall_w: np.ndarray
    through_mouth_w: np.ndarray
    level_k: float
    level_out_w: tuple
    nearly_s: float


def lamp_lit(vessel, gas_w=0.1, wall_w=4.0, until_s=7200.0):
    """`LampLit` of a `Vessel` of air whose gas and wall take up so much (W), followed until `until_s` (s), or longer if 95 % come later.

    The two-store balance with its mouth: `kit.physics.heat.courses`, `kit.physics.heat.vessel` (derived here).
    """
    slow_s = (vessel.gas_j_per_k + vessel.wall_j_per_k) / vessel.wall_to_room_w_per_k
    stage = Stage(max(float(until_s), 4.0 * slow_s), gas_w, wall_w)
    air = contents_of("air", vessel.volume_l, vessel.depth_m, diffusion_m3_s=0.0)
    step_s = max(LONGEST_STEP_S, stage.end_s / STEPS)
    followed = course(vessel, air, [stage], longest_step_s=step_s, lively_w_per_k=LIVELY_W_PER_K)
    level = steady_rise(vessel, gas_w, wall_w)
    missing = np.maximum(1 - followed.gas_k / level[0], 1e-12)  # falls as one exponential in the end, so straight in its logarithm
    through_wall, through_mouth = powers_out(vessel, followed.gas_k, followed.wall_k)
    return LampLit(
        times_s=followed.times_s,
        gas_k=followed.gas_k,
        wall_k=followed.wall_k,
        in_w=gas_w + wall_w,
        through_wall_w=through_wall,
        through_mouth_w=through_mouth,
        level_k=float(level[0]),
        level_out_w=tuple(float(each) for each in powers_out(vessel, *level)),
        nearly_s=float(np.interp(-np.log(0.05), -np.log(missing), followed.times_s)),
    )
