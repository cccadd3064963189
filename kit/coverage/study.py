"""What a coverage study is made of: rows of figures, each with its Monte-Carlo error and the bar it must keep."""

from collections.abc import Callable
from dataclasses import dataclass
from math import inf, sqrt

from kit.estimate import rounded


@dataclass(frozen=True)
class Figure:
    """One measured number. `error`: its Monte-Carlo standard error (None: not estimated); `low`, `high`: the bars it must keep."""

    name: str
    value: float
    error: float | None = None
    low: float = -inf
    high: float = inf
    places: int = 1

    @property
    def kept(self):
        """Does the number keep its bars? One that is not a number, for want of answers, breaks none."""
        return not (self.value < self.low or self.value > self.high)

    def __str__(self):
        text = rounded(self.value, self.places) if self.value == self.value else "-"
        return text + (f" ±{rounded(self.error, self.places)}" if self.error is not None else "") + ("" if self.kept else " MISSES")


@dataclass(frozen=True)
class Row:
    """One scenario and its figures, the same names in every row of a study."""

    scenario: str
    figures: tuple

    @property
    def kept(self):
        """Are all bars kept?"""
        return all(figure.kept for figure in self.figures)


@dataclass(frozen=True)
class Study:
    """A named table. `rows(runs)` yields its rows, each from that many simulated runs (None: the study's own number), seeds fixed."""

    name: str
    about: str
    rows: Callable


def share(name, hits, **bars):
    """The share of `hits` (runs,) in percent, as a Figure; the error of a share of 0 or 100 % is that of one case in two more runs."""
    runs = len(hits)
    if not runs:
        return Figure(name, float("nan"), None, **bars)
    cautious = (hits.sum() + 1) / (runs + 2)
    return Figure(name, 100 * float(hits.mean()), 100 * sqrt(cautious * (1 - cautious) / runs), **bars)
