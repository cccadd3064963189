"""`course`: make a course of one's own, say what it lacks, pack it for learners."""

from kit.commands.copy import the_lesson
from kit.course import add_lesson, can_hand_in, failures_of, Lacks, lacks_of, new_course, pack_course
from kit.coursework import course_named, LESSONS
from kit.faults import Fault
from kit.words import counted

NO_HAND_IN = (
    "No lesson of it lets learners hand in, so nothing of theirs would come to your desk. If it should: take 12-write-it-up or your-own-run "
    "into course.toml, with a copy of its files."
)


def course(options):
    """Do what `options.action` says; 1 where a check finds something lacking."""
    try:
        return {"new": new, "add": add, "check": check, "pack": pack}[options.action](options)
    except Fault as fault:
        raise SystemExit(str(fault)) from fault


def new(options):
    """Make a course of the lessons named, or of all."""
    lessons = [the_lesson(word) for word in options.lessons] or sorted(LESSONS.glob("[0-9]*.ipynb"))
    folder = new_course(options.folder, lessons, options.run, options.title)
    print(f"The course is in {folder}, with {counted(len(lessons), 'lesson')}. README.md there says what each file is for.")
    print(f"To write it: python3 -m kit lab --course {folder}")
    return 0


def add(options):
    """Begin a lesson as a copy of the template."""
    path = add_lesson(options.folder, options.name)
    print(f"{path.name} and {path.with_suffix('.toml').name} are in {options.folder}, and the course's list names it last.")
    return 0


def check(options):
    """Print what each lesson lacks, its cells run from a fresh kernel."""
    made, lacking = course_named(options.folder), 0
    for name in made.lessons:
        told = _lacks(made, name)
        lacking += len(told.sentences)
        print(told, flush=True)
    print(f"{counted(lacking, 'thing is', 'things are')} missing or amiss." if lacking else "The course can be packed.")
    if not can_hand_in(made):
        print(NO_HAND_IN)
    return int(bool(lacking))


def _lacks(made, name):
    try:
        path = made.lesson(name)
    except Fault as fault:
        return Lacks(name, (str(fault),))
    return Lacks(name, (*lacks_of(path).sentences, *failures_of(path, made.folder.absolute())))


def pack(options):
    """Write the zip for learners beside the course."""
    path = pack_course(options.folder)
    print(f"{path} is made. A learner opens it with: python3 -m kit lab --course {path.name}")
    print("What it lacks, if anything: python3 -m kit course check", options.folder)
    return 0
