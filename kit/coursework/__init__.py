"""What a learner works through and leaves behind: lesson texts, marks, answers, own runs and their files."""

from kit.coursework.answers import add_answer, Answer, answers_path, Kept, peek_at_answers, read_answers
from kit.coursework.deciding import decide_places, decided_run, decisions_of, FLAG, KEEP, left_out_in_code, OUT, places_of
from kit.coursework.filing import keep_unchanged, safe_name
from kit.coursework.lessons import filled, names_in, read_card, read_lesson
from kit.coursework.margins import margin_c
from kit.coursework.marks import FOLDER_OF_MARKS, keep_marks, kept_marks
from kit.coursework.runs import OWN_CARD, own_runs, OwnRun, read_as_recorded, read_own, remember, remembered

__all__ = [
    "add_answer", "Answer", "answers_path", "decide_places", "decided_run", "decisions_of", "filled", "FLAG", "FOLDER_OF_MARKS",
    "KEEP", "keep_marks", "keep_unchanged", "Kept", "kept_marks", "left_out_in_code", "margin_c", "names_in", "OUT", "OWN_CARD",
    "own_runs", "OwnRun", "peek_at_answers", "places_of", "read_answers", "read_as_recorded", "read_card", "read_lesson",
    "read_own", "remember", "remembered", "safe_name",
]  # fmt: skip
