"""What a learner works through and leaves behind: lesson texts, marks, answers, own runs and their files."""

from kit.coursework.answers import add_answer, Answer, answers_path, Kept, peek_at_answers, read_answers
from kit.coursework.filing import keep_unchanged, safe_name
from kit.coursework.lessons import filled, names_in, read_card, read_lesson
from kit.coursework.marks import FOLDER_OF_MARKS, keep_marks, kept_marks
from kit.coursework.runs import OWN_CARD, own_runs, OwnRun, read_own, remember, remembered

__all__ = [
    "add_answer", "Answer", "answers_path", "filled", "FOLDER_OF_MARKS", "keep_marks", "keep_unchanged", "Kept", "kept_marks", "names_in",
    "OWN_CARD", "own_runs", "OwnRun", "peek_at_answers", "read_answers", "read_card", "read_lesson", "read_own", "remember", "remembered", "safe_name",
]  # fmt: skip
