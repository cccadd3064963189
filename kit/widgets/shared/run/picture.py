"""What the window marker draws of a run: lines as bytes, a sentence and a table for those who do not see them."""

import numpy as np

from kit.estimate import rounded
from kit.units import difference_in, temperature_in, unit

MOST_ROWS = 40
LINES = {"treated": "treated", "control": "control", "difference": "difference", "gas": "gas_ppm"}


def picture_of(run):
    """The marker's fixed traits: `times` (s) and `lines` (°C, ppm) as float32, and `picture`, which says how to draw and tell them."""
    rows = lines_of(run)
    step = float(max(1, round(run.step_s)))
    picture = {
        "name": run.name,
        "unit": unit(),
        "rows": list(rows),
        "step": step,
        "least": min(step, 60 * run.minutes[-1] / 20),
        "gap": 5 * run.step_s,
        "summary": summary(run, rows),
        "head": ["minute", *(f"{name}, {'ppm' if name == 'gas' else unit()}" for name in rows)],
        "table": table(run, rows),
    }
    return {"times": packed(run.readings.index), "lines": packed(np.stack(list(rows.values()))), "picture": picture}


def lines_of(run):
    """The lines by name, those that were recorded: treated, control, their difference, the gas."""
    columns = run.readings.assign(difference=run.difference())
    rows = {name: columns[column].to_numpy(float) for name, column in LINES.items() if column in columns}
    return {name: row for name, row in rows.items() if np.isfinite(row).any()}


def packed(numbers):
    return np.ascontiguousarray(numbers, dtype="<f4").tobytes()


def summary(run, rows):
    """The picture in words: how long, and where each line begins, ends and is highest."""
    told = [told_line(name, row, run.minutes) for name, row in rows.items()]
    return f"Chart of the run {run.name}, {run.minutes[-1]:.1f} minutes long. {' '.join(told)}"


def told_line(name, row, minutes):
    known = np.isfinite(row)
    row, minutes = row[known], minutes[known]
    measure = "ppm" if name == "gas" else unit()
    first, last, most = (cell(name, each) for each in (row[0], row[-1], row.max()))
    title = {"difference": "The difference, treated minus control,", "gas": "CO2 in the treated vessel"}.get(name, name.capitalize())
    return f"{title} goes from {first} to {last} {measure}; it is highest, {most} {measure}, at minute {minutes[row.argmax()]:.1f}."


def table(run, rows):
    """About one reading a minute (fewer for a long run): the reading nearest to each full minute, as text."""
    last = run.minutes[-1]
    each = max(1, int(np.ceil(last / MOST_ROWS)))
    nearest = [int(np.abs(run.minutes - minute).argmin()) for minute in range(0, int(last) + 1, each)]
    return [[f"{run.minutes[i]:.1f}", *(cell(name, row[i]) for name, row in rows.items())] for i in sorted(set(nearest))]


def cell(name, value):
    if not np.isfinite(value):
        return "missing"
    shown = {"gas": float, "difference": difference_in}.get(name, temperature_in)(value)
    return rounded(shown, 0 if name == "gas" else 2)
