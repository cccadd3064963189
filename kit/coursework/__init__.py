"""What a learner works through and leaves behind: lesson texts, copies, contents, marks, answers, progress, own runs and their files."""

from kit.coursework.answers import add_answer, AFTER, Answer, answer_of, answers_beside, answers_path, BEFORE, CLASS_CARD, class_choices, CLASS_KIND
from kit.coursework.answers import ClassChoices, CONCEPTS, ConceptSheet, Kept, LEFT_OUT, level_of, margin_c, peek_at_answers, read_answers
from kit.coursework.answers import read_concept_sheets, RUBRIC, this_notebook, ticks, write_concept_sheets
from kit.coursework.lessons import add_fresh_copy, add_missing_lessons, CardQuestion, class_language, Contents, contents, COURSE_FILE, course_named
from kit.coursework.lessons import filled, FULL, learners_text, Lesson, lesson_folders, LESSONS, names_in, next_step, Note, Outline, outline_with
from kit.coursework.lessons import outlines, OwnCourse, page_of, Prediction, progress_of, read_card, read_lesson, short_file, TEACHERS
from kit.coursework.lessons import text_for_elsewhere, with_short_cards
from kit.coursework.runs import decide_places, decide_run, decided_in_code, decided_run, decisions_of, FLAG, FOLDER_OF_MARKS, is_marked, KEEP
from kit.coursework.runs import keep_marks, keep_unchanged, kept_marks, kept_windows, KIND_CARD, KIND_SAID, marked_hashes, marks_made_here, OUT, OWN_CARD
from kit.coursework.runs import own_runs, OwnRun, places_of, read_as_recorded, read_own, remember, remembered, run_kind, safe_name

__all__ = [
    "add_answer", "add_fresh_copy", "add_missing_lessons", "AFTER", "Answer", "answer_of", "answers_beside", "answers_path", "BEFORE", "CardQuestion",
    "CLASS_CARD", "class_choices", "CLASS_KIND", "class_language", "ClassChoices", "CONCEPTS", "ConceptSheet", "contents", "Contents", "COURSE_FILE",
    "course_named", "decide_places", "decide_run", "decided_in_code", "decided_run", "decisions_of", "filled", "FLAG", "FOLDER_OF_MARKS",
    "FULL", "is_marked", "KEEP", "keep_marks",
    "keep_unchanged", "Kept", "kept_marks", "kept_windows", "KIND_CARD", "KIND_SAID", "learners_text", "LEFT_OUT", "Lesson",
    "lesson_folders", "LESSONS", "level_of", "margin_c", "marked_hashes", "marks_made_here", "names_in", "next_step", "Note", "OUT", "Outline",
    "outline_with", "outlines", "OWN_CARD",
    "own_runs", "OwnCourse", "OwnRun", "page_of", "peek_at_answers", "places_of", "Prediction", "progress_of", "read_answers", "read_as_recorded",
    "read_card", "read_concept_sheets", "read_lesson", "read_own", "remember", "remembered", "RUBRIC", "run_kind", "safe_name", "short_file",
    "TEACHERS", "text_for_elsewhere", "this_notebook", "ticks", "with_short_cards", "write_concept_sheets",
]  # fmt: skip
