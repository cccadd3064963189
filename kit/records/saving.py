"""Writing a run out as the kit's own CSV, so that opening it again gives the same numbers to the last bit.

One header row, UTF-8: elapsed_s, treated_degC, control_degC, then room_degC, gas_ppm and light where recorded, and a column `note`
whose first cell keeps the run's name and kind and all remarks. An empty cell is a missing reading.
"""

import csv
import io
import re
from pathlib import Path

import numpy as np

from kit.faults import Fault
from kit.storage import write_atomically

HEADERS = {"treated": "treated_degC", "control": "control_degC", "room": "room_degC", "gas_ppm": "gas_ppm", "light": "light"}
SIGNATURE = "Twin Vessels run"
BETWEEN = " | "
NOTE = re.compile(
    r"Twin Vessels run \| name: (?P<name>[^|]+) \| kind: (?P<kind>measured|simulated) "
    r"\| gain uncertainty: (?P<gain>\d(?:\.\d{1,20})?(?:e-\d{1,3})?)(?P<remarks>.*)",
    re.DOTALL,
)
# A cell that starts so is a formula to a spreadsheet, also after a mark at which it may split the cell (OWASP, CSV Injection).
FORMULA = re.compile(r"((?:^|[,;|\t\r\n\"'])\s*)([=+\-@])")


def save_run(run, path):
    """Write `run` to `path` and give the path back. A Fault if another file is there already."""
    path, text = Path(path), csv_text(run)
    if path.is_dir():
        raise Fault(f"{path.name} is a folder. Add a file name: run.save('{path.name}/{run.name}.csv').")
    if path.exists() and path.read_bytes() != text.encode("utf-8"):
        raise Fault(f"{path.name} exists already and holds something else. Choose another name; nothing is ever overwritten.")
    try:
        write_atomically(path, text)
    except OSError as problem:
        raise Fault(f"{path.name} can't be written here. Choose another folder, such as your own.") from problem
    return path


def csv_text(run):
    """The text of the file, by the rules of RFC 4180."""
    written = io.StringIO(newline="")
    writer = csv.writer(written, lineterminator="\n")
    writer.writerow(["elapsed_s", *(HEADERS[name] for name in run.readings), "note"])
    columns = [run.readings.index.to_numpy(float), *(run.readings[name].to_numpy(float) for name in run.readings)]
    notes = [note_of(run), *[""] * (len(run.readings) - 1)]
    writer.writerows([*map(shortest, row), note] for row, note in zip(zip(*(column.tolist() for column in columns)), notes))
    return written.getvalue()


def shortest(number):
    """The shortest text that gives the same float64 back; nothing for a missing reading."""
    return "" if np.isnan(number) else repr(number).removesuffix(".0")


def note_of(run):
    facts = [SIGNATURE, f"name: {run.name}", f"kind: {run.kind}", f"gain uncertainty: {run.gain_uncertainty!r}"]
    remarks = dict.fromkeys(" ".join(remark.replace("|", "/").split()) for remark in run.remarks)
    return FORMULA.sub(r"\1'\2", BETWEEN.join([*facts, *remarks]))


def facts_and_remarks(note):
    """({'name', 'kind', 'gain_uncertainty'}, remarks) from a note that `save_run` wrote; None from any other."""
    match = NOTE.fullmatch(note)
    if not match:
        return None
    facts = {"name": match["name"], "kind": match["kind"], "gain_uncertainty": float(match["gain"])}
    return facts, tuple(filter(None, match["remarks"].split(BETWEEN)))
