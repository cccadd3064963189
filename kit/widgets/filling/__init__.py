"""The view of lesson 02: gas in an open vessel, and from when until when a run may be read."""

from kit.widgets.filling.filling import filling_view

__all__ = ["filling_view"]
