"""What could have warmed the treated vessel, how large each cause can be, and which run would tell."""

from kit.analysis.causes.bounds import LETTERS
from kit.analysis.causes.gastable import compare_gases, GasTable
from kit.analysis.causes.plausible import drawn, KINDS, Plausible
from kit.analysis.causes.possible import CauseBudget, possible_causes
from kit.analysis.causes.predictions import CausePrediction, computed_table, prediction, write_record
from kit.analysis.causes.published import PUBLISHED
from kit.analysis.causes.rivals import BY_LETTER, RIVALS, RUNS
from kit.analysis.causes.separating import runs_that_separate, SeparatingRuns
from kit.analysis.causes.weighing import weigh_causes, WeighedCauses

__all__ = [
    "BY_LETTER", "CauseBudget", "CausePrediction", "compare_gases", "computed_table", "drawn", "GasTable", "KINDS", "LETTERS", "Plausible",
    "possible_causes", "prediction", "PUBLISHED", "RIVALS", "RUNS", "runs_that_separate", "SeparatingRuns", "weigh_causes",
    "WeighedCauses", "write_record",
]  # fmt: skip
