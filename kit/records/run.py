"""A recorded run: what both thermometers said, and everything that was decided while it was read."""

from dataclasses import dataclass, field, replace
from hashlib import sha256

import numpy as np
import pandas as pd

from kit.faults import Fault
from kit.records import saving
from kit.rounding import rounded
from kit.units import temperature_in, unit
from kit.words import counted, table_html

COLUMNS = ("treated", "control", "room", "gas_ppm", "light")


@dataclass(frozen=True)
class Source:
    """Where a run came from: the file's name, and the SHA-256 of its bytes (of its readings, when it has no file)."""

    name: str
    sha256: str


@dataclass(frozen=True, eq=False)
class Run:
    """One run of the experiment.

    `readings` has the index `elapsed_s` (seconds since the first reading, ascending, no value twice) and columns among
    `treated`, `control`, `room` (°C), `gas_ppm` (ppm by volume) and `light`; a missing reading is NaN. Both vessels are
    required. `remarks` says in sentences all that was decided while reading; `kind` is 'measured' or 'simulated'.
    `gain_uncertainty` is the relative standard uncertainty of each thermometer's scale against the other's. `recipe` is what a
    simulated bench made the run from; it stays closed until `kit.reveal(run)`. `decisions` are those of `decide`.
    `clock_min`: the time of day at the first reading by the record's own clock, in minutes after midnight; None where it shows none.
    """

    readings: pd.DataFrame
    name: str
    source: Source
    remarks: tuple = ()
    kind: str = "measured"
    gain_uncertainty: float = 0.0
    recipe: object = field(default=None, repr=False)
    decisions: tuple = field(default=(), repr=False)
    clock_min: float | None = field(default=None, repr=False)

    def __post_init__(self):
        refuse_unfit(self.readings)

    @property
    def step_s(self):
        """The usual time from one reading to the next, in seconds (the median)."""
        return float(np.median(np.diff(self.readings.index)))

    @property
    def minutes(self):
        """Elapsed time of each reading, in minutes."""
        return self.readings.index.to_numpy() / 60

    def difference(self):
        """Treated minus control, in °C, as a Series over `elapsed_s`."""
        return (self.readings["treated"] - self.readings["control"]).rename("difference")

    def with_remark(self, remark, **changes):
        """This run with some fields changed and one more sentence in `remarks`."""
        return replace(self, remarks=(*self.remarks, remark), **changes)

    def corrected(self, calibration):
        """This run with a `Calibration` applied; its uncertainty then counts in every effect (see `calibrate`)."""
        return calibration.applied_to(self)

    def odd_places(self):
        """Gaps, leaps, a sensor standing still, a probe at its top end: a tuple of `OddPlace`, in order of time. Nothing is taken out."""
        return _oddities().odd_places(self.readings)

    def without(self, *places):
        """This run with the readings in the given odd places missing, and a remark for each that says so. The file stays as it is.

        A place is one of `odd_places()`, or any `OddPlace` of your own. A Fault for a gap, and for a place without readings.
        """
        readings = self.readings
        for place in places:
            readings = _oddities().taken_out(readings, place)
        return replace(self, readings=readings, remarks=(*self.remarks, *(f"Taken out at your word: {place}" for place in places)))

    def decide(self, decisions):
        """This run with odd places kept, kept with a flag, or left out: `{1: ('leave out', 'draught at the door'), 2: ('flag', '')}`.

        Keys are numbers from 1 in the order of `odd_places()`, or an `OddPlace`; choices are 'keep', 'flag' and 'leave out'. Choice and
        reason stand in `remarks` and `decisions`; the file stays as it is. A Fault where readings are left out without a reason, and for a
        place that holds none.
        """
        from kit.records import deciding  # here, since it stands on the quick looks below

        return deciding.decided(self, decisions)

    def save(self, path):
        """Write this run to `path` as the kit's own CSV (see `kit.records.saving`). `read_run` gives the same numbers to the last bit.

        Returns the path. A Fault if another file is there already: nothing is ever overwritten.
        """
        return saving.save_run(self, path)

    def __str__(self):
        length = self.readings.index[-1] / 60
        return f"Run {self.name} ({self.kind}): {counted(len(self.readings), 'reading')} over {length:.1f} min, one every {self.step_s:g} s."

    def _repr_html_(self):
        rows = [_told(name, series.min(), series.max()) for name, series in self.readings.items()]
        return table_html([*rows, *(("read so", remark) for remark in self.remarks)], str(self))


def _told(name, low, high):
    """What a channel is called, and from where to where its readings reach."""
    if name == "gas_ppm":
        return "CO2", f"{low:,.0f} to {high:,.0f} ppm"
    if name == "light":
        return name, f"{rounded(low, 2)} to {rounded(high, 2)}"
    return name, f"{rounded(temperature_in(low), 2)} to {rounded(temperature_in(high), 2)} {unit()}"


def _oddities():
    from kit.records import oddities  # here, since it stands on the quick looks below

    return oddities


def fingerprint(readings):
    """SHA-256 of a table of readings, for a run that came from no file."""
    digest = sha256(readings.index.to_numpy(float).tobytes())
    for name, series in readings.items():
        digest.update(name.encode())
        digest.update(series.to_numpy(float).tobytes())
    return digest.hexdigest()


def refuse_unfit(readings):
    """Raise a Fault unless `readings` keeps what `Run` promises."""
    for vessel in ("treated", "control"):
        if vessel not in readings:
            raise Fault(f"There is no {vessel} vessel in this record. Both are needed: only the control tells what would have happened anyway.")
    unknown = [name for name in readings if name not in COLUMNS]
    if unknown:
        raise Fault(f"A run has no column {unknown[0]!r}. Its columns are {', '.join(COLUMNS)}.")
    seconds = readings.index.to_numpy(float)
    if len(seconds) < 2:
        raise Fault(f"This record holds {counted(len(seconds), 'reading')}. At least two are needed.")
    if not np.isfinite(seconds[[0, -1]]).all() or not (seconds[1:] > seconds[:-1]).all():
        raise Fault("The times of this record do not run forward. Sort them, and keep each time once.")
    if any(np.isinf(span(series.to_numpy(float))).any() for _, series in readings.items()):
        raise Fault("A reading is infinite. Mark it as missing, or take it out.")


def thinned(values, most=20_000):
    """Every n-th of many values: enough for a median, at a fraction of the time."""
    return values[:: max(1, len(values) // most)]


def span(values):
    """(smallest, largest) of the readings that are there, NaN without any. Quick where none is missing."""
    low, high = (values.min(), values.max()) if len(values) else (np.nan, np.nan)
    if not np.isnan(low):
        return low, high
    return np.fmin.reduce(values, initial=np.nan), np.fmax.reduce(values, initial=np.nan)


def missing_in(values):
    """How many readings are missing."""
    return np.count_nonzero(np.isnan(values)) if len(values) and np.isnan(values.min()) else 0


def larger(steps, height):
    """The rows of the steps up or down by more than `height`."""
    low, high = span(steps)
    return np.flatnonzero(np.abs(steps) > height) if low < -height or high > height else np.zeros(0, int)


def spread(values):
    """Standard deviation as the median deviation tells it: a few leaps don't count."""
    return 1.4826 * np.median(np.abs(values - np.median(values)))
