"""The second view of lesson 01: what a source radiates, what a wall lets through, and what CO2 can take of it."""

from kit.widgets.spectrum.spectrum import spectrum_view

__all__ = ["spectrum_view"]
