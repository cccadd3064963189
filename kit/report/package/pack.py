"""The package beside the page: raw files, marks, readings as CSV, and every number as JSON, so that a reader can check it."""

import io
import json
import zipfile
from dataclasses import asdict

from kit.records import csv_text, NAMES
from kit.report.findings import result_of
from kit.report.version import versions
from kit.words import plain

FORM = "Twin Vessels report 1"
PAGE, NUMBERS, NOTEBOOK = "report.html", "report.json", "report.ipynb"
EARLIEST = (1980, 1, 1, 0, 0, 0)  # a zip's clock begins here; the same for each member, so that equal reports are equal files
ABOUT = (
    "raw/ holds each file as it was recorded, readings/ the same readings as CSV in seconds and °C. report.json has the windows in minutes, "
    "the answers, and every number with its unit; class/ holds the class's readings. The kit's open_report works the numbers out again.\n"
)
KEPT, KEPT_TOGETHER = ("effect", "curve", "comparison"), ("class", "causes")


def packed(record, findings, pages=None):
    """The bytes of the zip: the `record` (from `record_of`), each run's own file and readings, and `pages` (texts by name)."""
    numbers = json.dumps(record, ensure_ascii=False, indent=1, allow_nan=False)
    members = {NUMBERS: numbers, "README.txt": ABOUT, **(pages or {})}
    for count, found in enumerate(findings, start=1):
        members[raw_name(count, found.evidence)] = found.evidence.data
        members[f"readings/{count}.csv"] = csv_text(found.evidence.run)
    return zipped(members)


def zipped(members):
    """The bytes of a zip with these `members`, bytes or text by name. Equal members make equal bytes."""
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in members.items():
            archive.writestr(zipfile.ZipInfo(name, EARLIEST), content, zipfile.ZIP_DEFLATED)
    return held.getvalue()


def raw_name(count, evidence):
    """Where a run's own file lies in the zip."""
    return f"raw/{count}-{evidence.file}"


def with_class(record, together, class_):
    """(the `record` of a report with the numbers on all runs together and the class's runs, those runs as CSV by name)."""
    if class_ is None:
        return {**record, "together": numbers_together(together), "class": None}, {}
    files = {f"class/{count}.csv": run for count, run in enumerate(class_.runs, start=1)}
    told = {"name": class_.runs.name, "groups": class_.runs.groups, "invented": class_.invented}
    choices = {"left_out": list(class_.left_out), "turned": list(class_.turned)}
    runs = [{"name": run.name, "file": file, "windows": windows_of(class_.windows.get(run.name))} for file, run in files.items()]
    numbers = {**record, "together": numbers_together(together), "class": {**told, **choices, "runs": runs}}
    return numbers, {file: csv_text(run) for file, run in files.items()}


def windows_of(windows):
    """`Windows` as JSON keeps them, None where there are none."""
    return windows and {name: list(getattr(windows, name)) for name in NAMES}


def record_of(material, findings, made_at):
    """What `report.json` holds of runs and answers."""
    return {
        "form": FORM,
        "made_at": made_at.isoformat(timespec="seconds"),
        "versions": versions(),
        "units": {"times of windows": "min", "temperatures": "°C"},
        "tolerance_c_per_min": material.tolerance_c_per_min,
        "runs": [_run(count, found) for count, found in enumerate(findings, start=1)],
        "lessons": {lesson.number: [asdict(answer) for answer in kept.answers] for lesson, kept in material.written},
        "faults": list(material.faults),
    }


def _run(count, found):
    evidence, run = found.evidence, found.evidence.run
    return {
        "name": run.name,
        "file": raw_name(count, evidence),
        "sha256": run.source.sha256,
        "kind": run.kind,
        "keywords": plain(evidence.keywords),
        "remarks": list(run.remarks),
        "windows": windows_of(evidence.windows),
        "decisions": [asdict(answer) for answer in evidence.decisions],
        "numbers": numbers_of(found),
    }


def numbers_of(found):
    """{key: numbers} of the results that `report.json` keeps."""
    results = {key: found.of(key) for key in KEPT}
    return {key: result.to_dict() for key, result in results.items() if result is not None}


def numbers_together(together):
    """The same of the findings on all runs together."""
    results = {key: result_of(together, key) for key in KEPT_TOGETHER}
    return {key: result.to_dict() for key, result in results.items() if result is not None}
