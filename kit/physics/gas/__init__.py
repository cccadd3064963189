"""Gases and the air they are in: properties, dose, how a vessel is filled, a room."""

from kit.physics.gas import dose, filling, gases, room
from kit.physics.gas.air import boiling_point_c, standard_pressure_pa, vapour_pressure_pa
from kit.physics.gas.filling import layered_share, mixed_share
from kit.physics.gas.gasdata import GASES, mixture

__all__ = [
    "boiling_point_c", "dose", "filling", "gases", "GASES", "layered_share", "mixed_share", "mixture", "room", "standard_pressure_pa",
    "vapour_pressure_pa",
]  # fmt: skip
