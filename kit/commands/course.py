"""`course`: make a course of one's own, say what it lacks, pack it for learners."""

from kit.commands.copy import the_lesson
from kit.course import add_lesson, failures_of, Lacks, lacks_of, new_course, pack_course
from kit.coursework import course_named, LESSONS
from kit.faults import Fault
from kit.words import counted


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
    print(f"The course is in {folder}, with {len(lessons)} lessons. README.md there says what each file is for.")
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
        path = made.lesson(name)
        found = lacks_of(path)
        told = Lacks(name, (*found.sentences, *failures_of(path, options.folder.absolute())))
        lacking += len(told.sentences)
        print(told, flush=True)
    print(f"{counted(lacking, 'thing is', 'things are')} missing." if lacking else "The course can be packed.")
    return int(bool(lacking))


def pack(options):
    """Write the zip for learners beside the course."""
    path = pack_course(options.folder)
    print(f"{path} is made. A learner opens it with: python3 -m kit lab --course {path.name}")
    print("What it lacks, if anything: python3 -m kit course check", options.folder)
    return 0
