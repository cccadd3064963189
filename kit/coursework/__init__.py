"""What a learner works through and leaves behind: lesson texts, marks, answers, files brought in."""

from kit.coursework.answers import add_answer, Answer, answers_path, Kept, read_answers
from kit.coursework.filing import keep_unchanged, remember, remembered, safe_name
from kit.coursework.lessons import filled, names_in, read_card, read_lesson
from kit.coursework.marks import keep_marks, kept_marks

__all__ = [
    "add_answer", "Answer", "answers_path", "filled", "keep_marks", "keep_unchanged", "Kept", "kept_marks", "names_in", "read_answers",
    "read_card", "read_lesson", "remember", "remembered", "safe_name",
]  # fmt: skip
