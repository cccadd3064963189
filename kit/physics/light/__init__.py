"""Light and infrared: what a warm body gives off and what a gas takes up."""

from kit.physics.light import absorption, radiation
from kit.physics.light.absorption import lamp_absorbed_share
from kit.physics.light.radiation import exitance_w_m2, FILAMENT_K

__all__ = [
    "absorption", "exitance_w_m2", "FILAMENT_K", "lamp_absorbed_share", "radiation",
]  # fmt: skip
