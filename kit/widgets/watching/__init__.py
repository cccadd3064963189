"""The effect of a marker's windows, as they are now."""

from kit.widgets.watching.effectview import EffectView, watch

__all__ = ["EffectView", "watch"]
