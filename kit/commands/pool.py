"""`pool`: thousands of records into one table of effects and one pooled result. It can be stopped at any time and goes on where it was."""

import csv
import json
import os
import time
from collections import Counter
from pathlib import Path

from kit.analysis.classes import class_effect
from kit.analysis.effect import paired_effect, suggest_windows
from kit.commands.spreading import dask_map, mapping
from kit.estimate import Parts
from kit.faults import Fault
from kit.intake import read_run
from kit.intake.classes import RECORDS
from kit.intake.given import added, asked_of
from kit.settings import class_settings
from kit.statistics import ranged
from kit.storage import write_atomically
from kit.words import counted, some

# What is known of a file, what was found in it, and what its range is made of (`Parts`), all in °C; windows in minutes.
KNOWN = ("file", "group", "bytes", "changed_ns", "level", "tolerance_degC_per_min", "said")
FOUND = ("warming_degC", "low_degC", "high_degC", "verdict", "cautions", "windows_min", "sha256", "fault")
PARTS = {
    "error_degC": "error", "dof": "dof", "gain_degC": "gain", "drift_low_degC": "drift_low", "drift_high_degC": "drift_high",
    "carried_degC": "carried", "carried_error_degC": "carried_error",
}  # fmt: skip
COLUMNS = (*KNOWN, *FOUND, *PARTS)
# Seconds between two words of progress; files after which it is known how long the rest takes.
LEVEL, EVERY_S, FEWEST_TIMED = 0.95, 5.0, 20
TABLE, SO_FAR, RESULT = "effects.csv", "effects-so-far.csv", "pooled.json"
UNEXPECTED = "The kit met something it did not expect ({}: {})."


def pool(options):
    """Read all records in `options.folders`, write the table and the pooled result into `options.into`; the exit status."""
    into, said = options.into.absolute(), said_of_all(options.say)
    files = records_in([folder.absolute() for folder in options.folders], into)
    if not files:
        raise SystemExit("There is no record in these folders: no file that ends with " + some(sorted(RECORDS)) + ".")
    into.mkdir(parents=True, exist_ok=True)
    with dask_map(options.dask) if options.dask else mapping(options.workers) as work:
        rows = all_rows(files, into, work, said)
    print(f"\n{told(rows, into)}")
    return 0


def said_of_all(pairs):
    """What holds for every file, as JSON: the keywords of `read_run` and their values, from (keyword, value) pairs; '' without any."""
    keywords = {}
    for keyword, value in pairs:
        keywords[keyword] = added(keywords.get(keyword), keyword, int(value) if value.isdecimal() else value)
    try:
        asked_of(keywords, "pool --say")
    except Fault as fault:
        raise SystemExit(str(fault)) from None
    return json.dumps(keywords, ensure_ascii=False, sort_keys=True) if keywords else ""


def records_in(folders, into):
    """{name: (path, group)} of every record in `folders`, but for those in `into`. `group`: the subfolder it lies in, '' without one. With several
    folders names and groups begin with the folder's name. A link is no record."""
    found, names = {}, [folder.name for folder in folders]
    for folder in folders:
        if not folder.is_dir():
            raise SystemExit(f"There is no folder {folder}. Check its name.")
        before = () if len(folders) == 1 else (folder.name if names.count(folder.name) == 1 else folder.as_posix(),)
        for path in files_in(folder, into):
            inside = path.relative_to(folder).parts
            found["/".join((*before, *inside))] = path, "/".join((*before, *inside[:-1])) if inside[1:] else ""
    return dict(sorted(found.items()))


def files_in(folder, into):
    for place, inner, names in os.walk(folder):
        inner[:] = [each for each in inner if not each.startswith(".") and Path(place, each) != into]
        for path in (Path(place, name) for name in names if not name.startswith((".", "~$"))):
            if path.suffix.lower() in RECORDS and not path.is_symlink():
                yield path


def all_rows(files, into, work, said=""):
    """A row for each of `files`, by `work` (a `map`), those that were worked out before and have not changed among them; kept in `into` as they come."""
    known = {name: known_of(name, *each, said) for name, each in files.items()}
    kept = {row["file"]: row for row in rows_in(into / TABLE) + rows_in(into / SO_FAR) if still_holds(row, known)}
    missing = [name for name in files if name not in kept]
    if kept:
        print(f"{counted(len(kept), 'file')} of {len(files):,} were worked out before and have not changed.", flush=True)
    write_rows(into / SO_FAR, kept.values())
    with open(into / SO_FAR, "a", encoding="utf-8", newline="") as so_far:
        table, pace = csv.DictWriter(so_far, COLUMNS), Pace(len(missing))
        for row in work(row_of, [files[name][0] for name in missing], [known[name] for name in missing]):
            table.writerow(row)
            so_far.flush()
            kept[row["file"]] = row
            pace.one_more()
    rows = [{name: str(row[name]) for name in COLUMNS} for _, row in sorted(kept.items())]
    write_rows(into / TABLE, rows)
    (into / SO_FAR).unlink()
    return rows


def known_of(name, path, group, said=""):
    """What must be the same for a row to hold still."""
    seen = path.stat()
    asked = LEVEL, class_settings(path.parent)["tolerance_c_per_min"]
    return dict(zip(KNOWN, map(str, (name, group, seen.st_size, seen.st_mtime_ns, *asked, said))))


def still_holds(row, known):
    return known.get(row.get("file")) == {name: row.get(name) for name in KNOWN}


def rows_in(path):
    """The rows of a table, none if there is no such file. A last line that was cut off is no row."""
    if not path.exists():
        return []
    with open(path, encoding="utf-8", newline="") as table:
        return [row for row in csv.DictReader(whole_lines(table)) if None not in row.values() and None not in row]


def whole_lines(table):
    return (line for line in table if line.endswith("\n"))


def write_rows(path, rows):
    """Write a table of `rows` whole or not at all."""
    lines = [dict(zip(COLUMNS, COLUMNS)), *rows]
    write_atomically(path, "".join(f"{line}\r\n" for line in (csv_line(row) for row in lines)))


def csv_line(row):
    quoted = (str(row[name]) for name in COLUMNS)
    return ",".join('"' + text.replace('"', '""') + '"' if any(each in text for each in ',"\r\n') else text for text in quoted)


def row_of(path, known):
    """A row of the table: the effect of one record with suggested windows, or why there is none. No fault of one file stops the others."""
    row = dict.fromkeys(COLUMNS, "") | known
    try:
        run = read_run(path, **json.loads(known["said"] or "{}"))
        effect = paired_effect(run, suggest_windows(run), level=float(known["level"]), tolerance_c_per_min=float(known["tolerance_degC_per_min"]))
    except Fault as fault:
        return row | {"fault": str(fault)}
    except Exception as problem:
        return row | {"fault": UNEXPECTED.format(type(problem).__name__, problem)}
    warming, windows = effect.warming, effect.windows
    row |= {"verdict": effect.verdict, "cautions": " ".join(each.code for each in effect.cautions), "sha256": run.source.sha256}
    row |= {"windows_min": " ".join(f"{edge:g}" for pair in (windows.baseline, windows.perturbation, windows.response) for edge in pair)}
    if warming.parts is None or not warming.parts.known:
        return row | {"fault": effect.reason}
    row |= {"warming_degC": warming.value, "low_degC": warming.low, "high_degC": warming.high}
    return row | {column: getattr(warming.parts, name) for column, name in PARTS.items()}


class Pace:
    """Says every few seconds how far it is."""

    def __init__(self, count):
        self.count, self.done, self.began = count, 0, time.monotonic()
        self.said = self.began

    def one_more(self):
        self.done += 1
        now = time.monotonic()
        if now - self.said >= EVERY_S or self.done == self.count:
            self.said, rate = now, self.done / max(now - self.began, 1e-3)
            left = f", about {(self.count - self.done) / rate:.0f} s more" if FEWEST_TIMED <= self.done < self.count else ""
            print(f"{self.done:,} of {self.count:,} files, {rate:.0f} a second{left}", flush=True)


def told(rows, into):
    """The pooled result in words; kept as JSON beside the table."""
    faults, place = [row["file"] for row in rows if row["fault"]], f"Every file has its line in {into / TABLE}."
    unread = f"{counted(len(faults), 'file')} gave no number: {some(faults)}. The column fault says why.{usual_fault(rows)}\n" if faults else ""
    try:
        effect = pooled(rows)
    except Fault as fault:
        (into / RESULT).unlink(missing_ok=True)  # one of other files, or of other words about them
        return f"{unread}{fault}\n{place}"
    kept = {name: value for name, value in effect.to_dict().items() if name != "shares"}
    write_atomically(into / RESULT, json.dumps(kept, indent=1, ensure_ascii=False) + "\n")
    twins = len(rows) - len(faults) - len({row["sha256"] for row in rows if not row["fault"]})
    twice = f"{counted(twins, 'file')} came twice, byte for byte, and counted twice: see the column sha256.\n" if twins else ""
    minded = "".join(f"Mind: {each}\n" for each in effect.cautions if each.code != "left-out")
    return f"{unread}{twice}{effect}\n{minded}\n{effect.explain()}\n\n{place} The pooled result is in {into / RESULT}."


def usual_fault(rows):
    """The fault that most files have, where several have the same; what all of them leave open is answered by `--say`."""
    (fault, count), = Counter(row["fault"].removeprefix(Path(row["file"]).name).lstrip(" ,:") for row in rows if row["fault"]).most_common(1)
    return f" {count:,} times: {fault}" + (" Where that holds for every file: --say KEYWORD=VALUE" if " Say " in fault else "") if count > 1 else ""


def pooled(rows):
    """The `ClassEffect` of a table: files in one subfolder are one group, as in `read_class`."""
    numbers = {row["file"]: estimate_of(row) for row in rows if not row["fault"]}
    groups = {row["file"]: row["group"] for row in rows if row["group"] and not row["fault"]}
    return class_effect(numbers, groups=groups, level=LEVEL)


def estimate_of(row):
    return ranged(float(row["warming_degC"]), Parts(**{name: float(row[column]) for column, name in PARTS.items()}), level=float(row["level"]))
