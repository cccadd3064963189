"""The lessons: their texts, short and full, a learner's copies of them, the contents page, and how far somebody is."""

from kit.coursework.lessons.copies import add_fresh_copy, add_missing_lessons, learners_text, text_for_elsewhere
from kit.coursework.lessons.courses import COURSE_FILE, course_named, OwnCourse
from kit.coursework.lessons.lessons import CardQuestion, filled, Lesson, lesson_folders, LESSONS, names_in, Note, Prediction, read_card, read_lesson
from kit.coursework.lessons.lessons import TEACHERS
from kit.coursework.lessons.outline import Outline, outline_with, outlines
from kit.coursework.lessons.progress import next_step, progress_of
from kit.coursework.lessons.shelf import contents, Contents
from kit.coursework.lessons.short import class_language, FULL, page_of, short_file, with_short_cards

__all__ = [
    "add_fresh_copy", "add_missing_lessons", "CardQuestion", "class_language", "contents", "Contents", "COURSE_FILE", "course_named", "filled",
    "FULL", "learners_text", "Lesson", "lesson_folders", "LESSONS", "names_in", "next_step", "Note", "Outline", "outline_with", "outlines",
    "OwnCourse", "page_of", "Prediction", "progress_of", "read_card", "read_lesson", "short_file", "TEACHERS", "text_for_elsewhere",
    "with_short_cards",
]  # fmt: skip
