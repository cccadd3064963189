"""Gas, radiation, vessel, air and planet: pure functions, each with its units and its source."""

from kit.physics import absorption, convection, dose, filling, gases, planet, radiation, room
from kit.physics.air import boiling_point_c, standard_pressure_pa, vapour_pressure_pa
from kit.physics.checking import bounded, one_of
from kit.physics.constants import MOLAR_MASS_G, ROOM_CO2_SHARE, STANDARD_PRESSURE_PA, ZERO_C_K
from kit.physics.convection import conductance_ratio, CONDUCTION, MIXED_FLOW, TURBULENT_FLOW
from kit.physics.gasdata import GASES
from kit.physics.radiation import exitance_w_m2
from kit.physics.vessel import course, Stage, steady_rise, Vessel

__all__ = [
    "absorption", "boiling_point_c", "bounded", "conductance_ratio", "CONDUCTION", "convection", "course", "dose", "exitance_w_m2",
    "filling", "GASES", "gases", "MIXED_FLOW", "MOLAR_MASS_G", "one_of", "planet", "radiation", "room", "ROOM_CO2_SHARE", "Stage",
    "STANDARD_PRESSURE_PA", "standard_pressure_pa", "steady_rise", "TURBULENT_FLOW", "vapour_pressure_pa", "Vessel", "ZERO_C_K",
]  # fmt: skip
