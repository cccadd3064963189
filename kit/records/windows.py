"""Three windows of time: the quiet baseline, the perturbation, and the response that is read."""

import json
from dataclasses import dataclass, fields
from math import isfinite

from kit.faults import Fault
from kit.storage import write_atomically
from kit.words import clock, table_html

NAMES = ("baseline", "perturbation", "response")


@dataclass(frozen=True)
class Windows:
    """Baseline, perturbation and response, each a pair (start, end) in minutes of elapsed time, in that order, not overlapping."""

    baseline: tuple
    perturbation: tuple
    response: tuple

    def __post_init__(self):
        for name in NAMES:
            object.__setattr__(self, name, _pair(name, getattr(self, name)))
        for earlier, later in zip(NAMES, NAMES[1:]):
            end, start = getattr(self, earlier)[1], getattr(self, later)[0]
            if end > start:
                given = f"The {later} starts at {start:g} min, before the {earlier} ends at {end:g} min."
                raise Fault(f"{given} Move one of them, so that they do not overlap.")

    @classmethod
    def of_perturbation(cls, at_min, after_min=10, *, baseline_min=1, perturbation_min=1, response_min=1):
        """Windows around a change at minute `at_min`: a baseline just before it, a response centred `after_min` minutes after it."""
        middle = at_min + after_min
        return cls((at_min - baseline_min, at_min), (at_min, at_min + perturbation_min), (middle - response_min / 2, middle + response_min / 2))

    @classmethod
    def of_seconds(cls, edges_s):
        """Windows from six edges in seconds, in order of time."""
        minutes = [each / 60 for each in edges_s]
        return cls(*zip(minutes[::2], minutes[1::2]))

    @property
    def seconds(self):
        """The six edges in seconds, in order of time."""
        return tuple(60 * edge for name in NAMES for edge in getattr(self, name))

    def save(self, path, run):
        """Write these windows to `path` as JSON with the SHA-256 of `run`, whole or not at all."""
        marks = {each.name: list(getattr(self, each.name)) for each in fields(self)}
        write_atomically(path, json.dumps({"run": run.name, "sha256": run.source.sha256, "unit": "min", **marks}, indent=1))

    @classmethod
    def load(cls, path, run):
        """Read windows that `save` wrote. A Fault if the file is damaged or belongs to another run."""
        try:
            kept = json.loads(path.read_text(encoding="utf-8"))
            owner, pairs = kept["sha256"], [kept[name] for name in NAMES]
        except (ValueError, KeyError, TypeError) as problem:
            raise Fault(f"{path.name} does not hold windows that can be read. Delete it and mark the windows again.") from problem
        if owner != run.source.sha256:
            raise Fault(f"The windows in {path.name} belong to another run. Mark the windows of {run.name} anew.")
        return cls(*pairs)

    def __str__(self):
        return "; ".join(f"{name} {clock(60 * start)} to {clock(60 * end)}" for name, (start, end) in self._named()) + "."

    def _repr_html_(self):
        return table_html([(name, f"{clock(60 * start)} to {clock(60 * end)}") for name, (start, end) in self._named()], "Windows")

    def _named(self):
        return [(name, getattr(self, name)) for name in NAMES]


def _pair(name, pair):
    try:
        start, end = (float(edge) for edge in pair)
    except (TypeError, ValueError) as problem:
        raise Fault(f"The {name} needs two times in minutes, its start and its end: (10, 11), say. It was given {pair!r}.") from problem
    if not (isfinite(start) and isfinite(end) and start < end):
        raise Fault(f"The {name} must start before it ends. It was given {start:g} to {end:g} minutes.")
    return start, end
