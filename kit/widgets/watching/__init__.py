"""The effect of a marker's windows, as they are now; and three runs side by side."""

from kit.widgets.watching.effectview import EffectView, watch
from kit.widgets.watching.threebars import three_bars

__all__ = ["EffectView", "three_bars", "watch"]
