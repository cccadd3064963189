"""Thirty groups of an invented school: the bundled eight, and twenty-two more from the same bench, whose lamps all leaned to the same side.

`thirty.csv` keeps what `measured` finds in each run, so that a board opens at once; tests work it out anew, and `renew()` writes it anew after a
change of the bench. Its first columns say how the bench made a run (`kit.bench.recipe.Recipe` has their units), `started_min` when in the school
day. Half the groups read a second time, with the places of the vessels changed. `truth_c`: what the gas alone did in that group's vessel, which
no group can know.
"""

import csv
import io
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np

from kit.analysis.classes import GroupRuns
from kit.analysis.effect import paired_effect
from kit.bench import reveal, simulate_run
from kit.estimate import Parts
from kit.examples import example_class, example_run
from kit.records import Windows
from kit.statistics import ranged
from kit.storage import write_atomically
from kit.widgets.board.members import Class, Member

RECORD = Path(__file__).with_name("thirty.csv")
FIRST_BELL_MIN = 8 * 60 + 30
SCHOOL, FIRST = "of the harbour town school", 8
WINDOWS = Windows.of_perturbation(11)  # agreed by all groups before
BENCH = ("seed", "nudge", "mouth_cm", "gas_l", "offset_c")
PARTS = ("error", "dof", "gain", "drift_low", "drift_high", "carried", "carried_error")
NOTES = {"Slate": "The group noted: our lamp was knocked when the gas went in. We put it back by eye."}


@cache
def thirty():
    """The `Class` of all thirty groups, the bundled eight first."""
    found = {}
    for row in rows():
        found.setdefault(row["group"], []).append(row)
    members = tuple(_member(name, runs) for name, runs in found.items())
    return Class(SCHOOL, members, run_of, truth=float(np.mean([float(runs[0]["truth_c"]) for runs in found.values()])))


def rows():
    """What is kept of each run, as texts by column."""
    return list(csv.DictReader(RECORD.read_text(encoding="utf-8").splitlines()))


def _member(name, runs):
    first = runs[0]
    facts = {"time": FIRST_BELL_MIN + float(first["started_min"]), "mouth": float(first["mouth_cm"])}
    return Member(name, tuple(_single(row) for row in runs), facts, NOTES.get(name, ""))


def _single(row):
    parts, value = Parts(**{name: float(row[name]) for name in PARTS}), float(row["value"])
    return GroupRuns(row["run"], (row["run"],), ranged(value, parts), value, parts, float(row["side"]))


def run_of(name):
    """The run of that name: the bundled file, or the bench's once more."""
    row = next(each for each in rows() if each["run"] == name)
    swapped = row["side"] == "-1"
    if row["seed"]:
        return replace(simulate_run(**{key: float(row[key]) for key in BENCH}, step_s=5, swapped=swapped), name=name)
    return example_run(name) if swapped else example_class()[name]


def measured(row):
    """What the kit finds in the run of a row, and what was true: {column: number}."""
    run = run_of(row["run"])
    warming = paired_effect(run, WINDOWS).warming
    return {"truth_c": reveal(run).warming_c, "value": warming.value} | {name: getattr(warming.parts, name) for name in PARTS}


def renew():
    """Work out anew, and write, all that `thirty.csv` keeps of the runs; how the bench made them stays."""
    told = [{**row, **{name: f"{number:.6g}" for name, number in measured(row).items()}} for row in rows()]
    text = io.StringIO(newline="")
    table = csv.DictWriter(text, list(told[0]), lineterminator="\n")
    table.writeheader()
    table.writerows(told)
    write_atomically(RECORD, text.getvalue())
