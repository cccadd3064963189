"""The bundled runs: invented data from the simulated bench, read like any other file."""

from dataclasses import replace
from pathlib import Path

from kit.faults import Fault
from kit.intake.classes import read_class
from kit.intake import read_run
from kit.words import listed

DATASETS = Path(__file__).parents[1] / "datasets"
INVENTED = "These data are invented: simulated from the kit's vessel model."

SETTLED = {"dolomite": {"time": "Logger time"}}  # this file's two clocks disagree on purpose


def example_run(name):
    """A bundled run by name ('basalt', 'Flint air', 'slate-hand.csv'). All are invented. A Fault for an unknown name lists the known."""
    known = _known(name)
    return _simulated(read_run(example_path(known), **SETTLED.get(known, {})))


def example_path(name):
    """Where the file of a bundled run lies. A Fault for an unknown name lists the known."""
    return DATASETS / f"{_known(name)}.csv"


def reference_run():
    """The bundled reference run: the usual set-up, read once a second by quiet thermometers. Invented, too."""
    return example_run("reference")


def example_class():
    """The `ClassRuns` of the eight bundled groups, named after rocks, one run each. All are invented."""
    made = read_class(DATASETS / "class")
    return replace(made, name="of the harbour town school", runs=tuple(replace(_simulated(run), name=run.name.title()) for run in made))


def example_names():
    """The names of all bundled runs, in order of the alphabet."""
    return sorted(path.stem for path in DATASETS.glob("*.csv"))


def _known(name):
    plain = "-".join(str(name).lower().removesuffix(".csv").replace("_", " ").replace("-", " ").split())
    if plain not in example_names():
        raise Fault(f"There is no example run {str(name)!r}. Choose one of {listed(example_names(), 'or')}.")
    return plain


def _simulated(run):
    return replace(run, kind="simulated", remarks=(INVENTED, *run.remarks))
