"""Gas, radiation, vessel with its mouth, air and planet: pure functions, each with its units and its source."""

from kit.physics import planet
from kit.physics.checking import bounded, one_of
from kit.physics.constants import MOLAR_MASS_G, ROOM_CO2_SHARE, ROOM_K, STANDARD_PRESSURE_PA, ZERO_C_K
from kit.physics.gas import boiling_point_c, dose, filling, GASES, gases, room, standard_pressure_pa, vapour_pressure_pa
from kit.physics.heat import (
    AIR_J_M3_K, CAUSES, CONDUCTION, contents_of, convection, course, exchange_m3_s, flip_share, GasBesideAir, heavier_by, lamp_lit,
    LampLit, lasts_min, lighter_by, MIXED_FLOW, pair_course, Setting, share_left, share_over_depth, Stage, steady_rise, TURBULENT_FLOW,
    Vessel,
)  # fmt: skip
from kit.physics.light import absorption, exitance_w_m2, radiation

__all__ = [
    "absorption", "AIR_J_M3_K", "boiling_point_c", "bounded", "CAUSES", "CONDUCTION", "GasBesideAir", "contents_of", "convection", "course",
    "dose", "exchange_m3_s", "exitance_w_m2", "filling", "flip_share", "GASES", "gases", "heavier_by", "lamp_lit", "LampLit", "lasts_min",
    "lighter_by", "MIXED_FLOW", "MOLAR_MASS_G", "one_of", "pair_course", "planet", "radiation", "room", "ROOM_CO2_SHARE", "ROOM_K",
    "Setting", "share_left", "share_over_depth", "Stage", "STANDARD_PRESSURE_PA", "standard_pressure_pa", "steady_rise",
    "TURBULENT_FLOW", "vapour_pressure_pa", "Vessel", "ZERO_C_K",
]  # fmt: skip
