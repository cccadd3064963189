"""What a learner answered, ticked and chose, and the sheets of the concept check: kept, never overwritten."""

from kit.coursework.answers.answers import add_answer, Answer, answer_of, answers_beside, answers_path, Kept, peek_at_answers, read_answers
from kit.coursework.answers.answers import this_notebook
from kit.coursework.answers.classes import CLASS_CARD, class_choices, CLASS_KIND, ClassChoices
from kit.coursework.answers.conceptsheets import AFTER, BEFORE, CONCEPTS, ConceptSheet, LEFT_OUT, read_concept_sheets, write_concept_sheets
from kit.coursework.answers.margins import margin_c
from kit.coursework.answers.rubric import level_of, RUBRIC, ticks

__all__ = [
    "add_answer", "AFTER", "Answer", "answer_of", "answers_beside", "answers_path", "BEFORE", "CLASS_CARD", "class_choices", "CLASS_KIND",
    "ClassChoices", "CONCEPTS", "ConceptSheet", "Kept", "LEFT_OUT", "level_of", "margin_c", "peek_at_answers", "read_answers",
    "read_concept_sheets", "RUBRIC", "this_notebook", "ticks", "write_concept_sheets",
]  # fmt: skip
