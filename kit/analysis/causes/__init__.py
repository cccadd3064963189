"""What could have warmed the treated vessel, how large each cause can be, and which run would tell."""

from kit.analysis.causes.gastable import GasTable
from kit.analysis.causes.possible import CauseBudget, possible_causes

__all__ = ["CauseBudget", "GasTable", "possible_causes"]
