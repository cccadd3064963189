"""A learner's own runs: their files kept unchanged, their kind, their marks, and what was decided about odd places."""

from kit.coursework.runs.deciding import decide_places, decided_in_code, decided_run, decisions_of, FLAG, KEEP, OUT, places_of
from kit.coursework.runs.filing import keep_unchanged, safe_name
from kit.coursework.runs.kinds import KIND_CARD, KIND_SAID, run_kind
from kit.coursework.runs.marks import FOLDER_OF_MARKS, is_marked, keep_marks, kept_marks, marked_hashes, marks_made_here
from kit.coursework.runs.runs import decide_run, kept_windows, OWN_CARD, own_runs, OwnRun, read_as_recorded, read_own, remember, remembered

__all__ = [
    "decide_places", "decide_run", "decided_in_code", "decided_run", "decisions_of", "FLAG", "FOLDER_OF_MARKS", "is_marked", "KEEP", "keep_marks",
    "keep_unchanged", "kept_marks", "kept_windows", "KIND_CARD", "KIND_SAID", "marked_hashes", "marks_made_here", "OUT", "OWN_CARD", "own_runs",
    "OwnRun", "places_of", "read_as_recorded", "read_own", "remember", "remembered", "run_kind", "safe_name",
]  # fmt: skip
