"""`copy`: begin a lesson anew without losing the old one."""

from kit.coursework import add_fresh_copy, LESSONS


def copy(options):
    """Put a fresh copy of the one lesson that `options.lesson` names into the learner's folder."""
    path = add_fresh_copy(the_lesson(options.lesson), options.work.absolute())
    print(f"A fresh copy is in {path}. The old one is as it was.")
    return 0


def the_lesson(word, lessons=LESSONS):
    """The lesson whose name holds `word`; one that begins with it comes first."""
    every = sorted(lessons.glob("*.ipynb"))
    fitting = [path for path in every if path.name.startswith(word)] or [path for path in every if word.lower() in path.stem.lower()]
    if len(fitting) == 1:
        return fitting[0]
    there_are = ", ".join(path.stem for path in fitting or every)
    raise SystemExit(f"{'More than one lesson fits' if fitting else 'No lesson fits'} {word!r}. Choose one of: {there_are}")
