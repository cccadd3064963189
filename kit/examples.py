"""The bundled runs: invented data from the simulated bench, read like any other file."""

from dataclasses import replace

from kit.bootstrap.places import DATASETS, open_course
from kit.faults import Fault
from kit.intake.classes import read_class
from kit.intake import read_run
from kit.words import listed

DATA = "data"  # the folder of a course that holds the teacher's own runs
INVENTED = "These data are invented: simulated from the kit's vessel model."

SETTLED = {"dolomite": {"time": "Logger time"}}  # this file's two clocks disagree on purpose


def example_run(name):
    """A bundled run by name ('basalt', 'Flint air', 'slate-hand.csv'). All are invented, but for those that an open course brings along in its
    folder `data`, which go first. A Fault for an unknown name lists the known."""
    known = _known(name)
    if known in _courses_own():
        return read_run(_courses_own()[known])
    return _simulated(read_run(example_path(known), **SETTLED.get(known, {})))


def example_path(name):
    """Where the file of a bundled run lies. A Fault for an unknown name lists the known."""
    known = _known(name)
    return _courses_own().get(known, DATASETS / f"{known}.csv")


def reference_run():
    """The bundled reference run: the usual set-up, read once a second by quiet thermometers. Invented, too."""
    return example_run("reference")


def example_class():
    """The `ClassRuns` of the eight bundled groups, named after rocks, one run each. All are invented."""
    made = read_class(DATASETS / "class")
    return replace(made, name="of the harbour town school", runs=tuple(replace(_simulated(run), name=run.name.title()) for run in made))


def example_names():
    """The names of all bundled runs, and of an open course's own, in order of the alphabet."""
    return sorted({*(path.stem for path in DATASETS.glob("*.csv")), *_courses_own()})


def _courses_own():
    """{name: path} of the runs that an open course brings along."""
    course = open_course()
    return {plain_name(path.stem): path for path in sorted((course / DATA).iterdir())} if course and (course / DATA).is_dir() else {}


def _known(name):
    plain = plain_name(str(name).removesuffix(".csv"))
    if plain not in example_names():
        raise Fault(f"There is no example run {str(name)!r}. Choose one of {listed(example_names(), 'or')}.")
    return plain


def plain_name(name):
    """'Flint air' as 'flint-air', as the bundled runs are called."""
    return "-".join(str(name).lower().replace("_", " ").replace("-", " ").split())


def _simulated(run):
    return replace(run, kind="simulated", remarks=(INVENTED, *run.remarks))
