"""Gas, radiation, vessel with its mouth, air and planet: pure functions, each with its units and its source."""

from kit.physics import absorption, convection, dose, filling, gases, planet, radiation, room
from kit.physics.air import boiling_point_c, standard_pressure_pa, vapour_pressure_pa
from kit.physics.checking import bounded, one_of
from kit.physics.constants import MOLAR_MASS_G, ROOM_CO2_SHARE, ROOM_K, STANDARD_PRESSURE_PA, ZERO_C_K
from kit.physics.contents import GasBesideAir, contents_of
from kit.physics.convection import CONDUCTION, MIXED_FLOW, TURBULENT_FLOW
from kit.physics.courses import CAUSES, course, Stage
from kit.physics.gasdata import GASES
from kit.physics.lamplit import lamp_lit, LampLit
from kit.physics.mouth import AIR_J_M3_K, exchange_m3_s, flip_share, heavier_by, lighter_by
from kit.physics.pair import pair_course, Setting
from kit.physics.pool import lasts_min, share_left, share_over_depth
from kit.physics.radiation import exitance_w_m2
from kit.physics.vessel import steady_rise, Vessel

__all__ = [
    "absorption", "AIR_J_M3_K", "boiling_point_c", "bounded", "CAUSES", "CONDUCTION", "GasBesideAir", "contents_of", "convection", "course",
    "dose", "exchange_m3_s", "exitance_w_m2", "filling", "flip_share", "GASES", "gases", "heavier_by", "lamp_lit", "LampLit", "lasts_min",
    "lighter_by", "MIXED_FLOW", "MOLAR_MASS_G", "one_of", "pair_course", "planet", "radiation", "room", "ROOM_CO2_SHARE", "ROOM_K",
    "Setting", "share_left", "share_over_depth", "Stage", "STANDARD_PRESSURE_PA", "standard_pressure_pa", "steady_rise",
    "TURBULENT_FLOW", "vapour_pressure_pa", "Vessel", "ZERO_C_K",
]  # fmt: skip
