"""A whole class pooled: one mean, how much groups differ, what the next one will find."""

from kit.analysis.classes.groups import GroupRuns, together
from kit.analysis.classes.pooling import class_effect, ClassEffect, pooled_class

__all__ = ["class_effect", "ClassEffect", "GroupRuns", "pooled_class", "together"]
