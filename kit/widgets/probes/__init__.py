"""The view of lesson 03: what two thermometers show, and what their faults do to a run's effect."""

from kit.widgets.probes.probes import probes_view

__all__ = ["probes_view"]
