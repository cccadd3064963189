"""`copy`: begin a lesson anew without losing the old one."""

from kit.coursework import add_fresh_copy, add_missing_lessons, LESSONS, text_for_elsewhere
from kit.words import counted


def copy(options):
    """Put a fresh copy of the one lesson that `options.lesson` names into the learner's folder; or all into the folder `options.all`."""
    if options.all:
        return copy_all(options.all.absolute())
    path = add_fresh_copy(the_lesson(options.lesson), options.work.absolute())
    print(f"A fresh copy is in {path}. The old one is as it was.")
    return 0


def copy_all(folder, lessons=LESSONS):
    """Put every lesson that `folder` does not hold yet into it, for any Jupyter whose Python has the kit."""
    new, every = add_missing_lessons(folder, lessons, text_for_elsewhere), len(list(lessons.glob("*.ipynb")))
    there = f" What it had already ({counted(every - len(new), 'lesson')}) stayed as it was." if len(new) < every else ""
    print(f"{counted(len(new), 'lesson')} put into {folder}.{there} Open contents.ipynb there in your Jupyter; the first line says what to press.")
    return 0


def the_lesson(word, lessons=LESSONS):
    """The lesson whose name holds `word`; one that begins with it comes first."""
    every = sorted(lessons.glob("*.ipynb"))
    fitting = [path for path in every if path.name.startswith(word)] or [path for path in every if word.lower() in path.stem.lower()]
    if len(fitting) == 1:
        return fitting[0]
    there_are = ", ".join(path.stem for path in fitting or every)
    raise SystemExit(f"{'More than one lesson fits' if fitting else 'No lesson fits'} {word!r}. Choose one of: {there_are}")
