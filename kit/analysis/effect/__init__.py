"""How much more the treated vessel warmed, and how sure that is."""

from kit.analysis.effect.budget import warming_with
from kit.analysis.effect.levels import difference_levels, level
from kit.analysis.effect.naive import naive_effect, NaiveEffect
from kit.analysis.effect.paired import Effect, paired_effect, quick_warming
from kit.analysis.effect.suggestion import change_of, gas_start, misplaced, suggest_windows

__all__ = [
    "change_of", "difference_levels", "Effect", "gas_start", "level", "misplaced", "naive_effect", "NaiveEffect", "paired_effect", "quick_warming",
    "suggest_windows", "warming_with",
]  # fmt: skip
