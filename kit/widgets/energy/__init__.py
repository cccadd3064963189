"""The view of lesson 01: energy in, energy out."""

from kit.widgets.energy.energy import energy_view

__all__ = ["energy_view"]
