"""The second look of lesson 11: the CO2 of the air as it was measured, how far it tips the balance, and how much that warms."""

from kit.widgets.airrecord.airrecord import co2_view

__all__ = ["co2_view"]
