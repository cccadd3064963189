"""The view of lesson 11: from vessel to planet, one way out, and what more CO2 does to it."""

from kit.widgets.planet.planet import planet_view

__all__ = ["planet_view"]
