"""What a learner works through and leaves behind: lesson texts, copies, contents, marks, answers, progress, own runs and their files."""

from kit.coursework.answers import add_answer, Answer, answer_of, answers_beside, answers_path, Kept, peek_at_answers, read_answers, this_notebook
from kit.coursework.classes import CLASS_CARD, CLASS_KIND, class_choices, ClassChoices
from kit.coursework.conceptsheets import AFTER, BEFORE, CONCEPTS, ConceptSheet, LEFT_OUT, read_concept_sheets, write_concept_sheets
from kit.coursework.copies import add_fresh_copy, add_missing_lessons, learners_text, text_for_elsewhere
from kit.coursework.courses import course_named, COURSE_FILE, OwnCourse
from kit.coursework.deciding import decide_places, decided_in_code, decided_run, decisions_of, FLAG, KEEP, OUT, places_of
from kit.coursework.filing import keep_unchanged, safe_name
from kit.coursework.kinds import KIND_CARD, KIND_SAID, run_kind
from kit.coursework.lessons import CardQuestion, filled, Lesson, lesson_folders, LESSONS, names_in, Note, Prediction
from kit.coursework.lessons import read_card, read_lesson, TEACHERS
from kit.coursework.margins import margin_c
from kit.coursework.marks import FOLDER_OF_MARKS, keep_marks, kept_marks, marked_hashes, marks_made_here
from kit.coursework.outline import Outline, outline_with, outlines
from kit.coursework.progress import next_step, progress_of
from kit.coursework.rubric import level_of, RUBRIC, ticks
from kit.coursework.runs import decide_run, kept_windows, OWN_CARD, own_runs, OwnRun, read_as_recorded, read_own, remember, remembered
from kit.coursework.short import class_language, FULL, page_of, short_file, with_short_cards
from kit.coursework.shelf import Contents, contents

__all__ = [
    "add_answer", "add_fresh_copy", "add_missing_lessons", "AFTER", "Answer", "answer_of", "answers_beside", "answers_path", "BEFORE", "CardQuestion",
    "CLASS_CARD", "class_choices", "CLASS_KIND", "class_language", "ClassChoices", "CONCEPTS", "ConceptSheet", "contents", "Contents", "COURSE_FILE",
    "course_named", "decide_places", "decide_run", "decided_in_code", "decided_run", "decisions_of", "filled", "FLAG", "FOLDER_OF_MARKS",
    "FULL", "KEEP", "keep_marks",
    "keep_unchanged", "Kept", "kept_marks", "kept_windows", "KIND_CARD", "KIND_SAID", "learners_text", "LEFT_OUT", "Lesson",
    "lesson_folders", "LESSONS", "level_of", "margin_c", "marked_hashes", "marks_made_here", "names_in", "next_step", "Note", "OUT", "Outline",
    "outline_with", "outlines", "OWN_CARD",
    "own_runs", "OwnCourse", "OwnRun", "page_of", "peek_at_answers", "places_of", "Prediction", "progress_of", "read_answers", "read_as_recorded",
    "read_card", "read_concept_sheets", "read_lesson", "read_own", "remember", "remembered", "RUBRIC", "run_kind", "safe_name", "short_file",
    "TEACHERS", "text_for_elsewhere", "this_notebook", "ticks", "with_short_cards", "write_concept_sheets",
]  # fmt: skip
