"""What a run is: its readings, its windows, its odd places, and how it is saved."""

from kit.records.deciding import Decision
from kit.records.oddities import GAP_STEPS, leaps, places_in, remarks_on
from kit.records.run import COLUMNS, fingerprint, missing_in, Run, Source, span, thinned
from kit.records.saving import csv_text, facts_and_remarks, HEADERS
from kit.records.windows import NAMES, Windows

__all__ = [
    "COLUMNS", "Decision", "csv_text", "facts_and_remarks", "fingerprint", "GAP_STEPS", "HEADERS", "leaps", "missing_in", "NAMES", "places_in", "remarks_on",
    "Run", "Source", "span", "thinned", "Windows",
]  # fmt: skip
