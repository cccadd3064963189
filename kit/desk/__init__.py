"""The teacher's desk: what a class handed in, on one page; and the pages to print from it."""

from kit.desk.classpage import bench_sheets, class_page, write_bench_sheets, write_class_page
from kit.desk.collecting import collect, Collected, GroupRun, Unread
from kit.desk.conceptpage import concept_key_page, concept_sheets_page, write_concept_pages
from kit.desk.counting import hinges_of, notes_of, predictions_of, questions_of
from kit.desk.desk import class_desk
from kit.desk.pooling import next_runs, pool_runs, suspect_runs
from kit.desk.served import bring_served, ClassProgress, progress_in

__all__ = [
    "bench_sheets", "bring_served", "class_desk", "class_page", "ClassProgress", "collect", "Collected", "concept_key_page",
    "concept_sheets_page", "GroupRun", "hinges_of", "next_runs", "notes_of", "pool_runs", "predictions_of", "progress_in", "questions_of",
    "suspect_runs", "Unread", "write_bench_sheets", "write_class_page", "write_concept_pages",
]  # fmt: skip
