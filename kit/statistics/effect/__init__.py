"""The paired effect of one run, one record, two records side by side or many at once; steps and breaks in it."""

from kit.statistics.effect.breaks import find_break, find_breaks
from kit.statistics.effect.paired import effects_of, paired_effects, PairedEffects, Terms
from kit.statistics.effect.sidebyside import side_by_side, SideBySide
from kit.statistics.effect.single import single_effect, SingleEffect
from kit.statistics.effect.stacked import stacked_effects
from kit.statistics.effect.vessels import vessel_changes

__all__ = [
    "effects_of", "find_break", "find_breaks", "paired_effects", "PairedEffects", "side_by_side", "SideBySide", "single_effect",
    "SingleEffect", "stacked_effects", "Terms", "vessel_changes",
]  # fmt: skip
