"""The vessel: what it takes in, loses through its walls and its mouth, and the course of that."""

from kit.physics.heat import convection
from kit.physics.heat.contents import contents_of, GasBesideAir
from kit.physics.heat.convection import CONDUCTION, MIXED_FLOW, TURBULENT_FLOW
from kit.physics.heat.courses import CAUSES, course, Stage
from kit.physics.heat.lamplit import lamp_lit, LampLit
from kit.physics.heat.mouth import AIR_J_M3_K, exchange_m3_s, flip_share, heavier_by, lighter_by
from kit.physics.heat.pair import pair_course, Setting
from kit.physics.heat.pool import lasts_min, share_left, share_over_depth
from kit.physics.heat.vessel import steady_rise, Vessel

__all__ = [
    "AIR_J_M3_K", "CAUSES", "CONDUCTION", "contents_of", "convection", "course", "exchange_m3_s", "flip_share", "GasBesideAir",
    "heavier_by", "lamp_lit", "LampLit", "lasts_min", "lighter_by", "MIXED_FLOW", "pair_course", "Setting", "share_left",
    "share_over_depth", "Stage", "steady_rise", "TURBULENT_FLOW", "Vessel",
]  # fmt: skip
