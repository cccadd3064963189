"""`check --coverage`: how often each of the kit's ranges holds the truth, on simulated runs with fixed seeds."""

import argparse
import time
from importlib import import_module

# Modules whose STUDIES make up the whole. To add a study, write it into one of them, or add a module here.
STUDIED_IN = (
    "kit.coverage.effects", "kit.coverage.steady", "kit.coverage.curves", "kit.coverage.classes", "kit.coverage.comparisons", "kit.coverage.finding",
    "kit.coverage.scales", "kit.coverage.causes",
)


def main(argv=()):
    """Print the tables; the exit status is 1 if any figure misses its bar."""
    options = _parser().parse_args(list(argv))
    chosen = [study for study in studies() if not options.only or study.name in options.only]
    kept = [_printed(study, options.runs) for study in chosen]
    print("Every bar is kept." if all(kept) else "Some bars are not kept: see MISSES above.")
    return int(not all(kept))


def studies():
    """All `Study`s of the kit, in order."""
    return [study for module in STUDIED_IN for study in import_module(module).STUDIES]


def _parser():
    parser = argparse.ArgumentParser(prog="check --coverage", description=__doc__)
    names = [study.name for study in studies()]
    parser.add_argument("--only", action="append", metavar="NAME", choices=names, help=f"one study, may be repeated: {', '.join(names)}")
    parser.add_argument("--runs", type=int, metavar="N", help="simulated runs in each row (without it: each study's own number)")
    return parser


def _printed(study, runs):
    """Print one table, row by row as they come. Are all its bars kept?"""
    start, kept, head = time.perf_counter(), True, None
    print(f"\n{study.name}: {study.about} ± is one Monte-Carlo standard error.")
    for row in study.rows(runs):
        if head is None:
            head = [figure.name for figure in row.figures]
            print(_line("", head, head))
        print(_line(row.scenario, map(str, row.figures), head), flush=True)
        kept &= row.kept
    print(f"({time.perf_counter() - start:.0f} s)")
    return kept


def _line(scenario, cells, head):
    return f"{scenario:<44}" + "".join(f"{cell:>{max(len(name), 13) + 2}}" for cell, name in zip(cells, head))
