"""A report opened again: the same files, the same marks, and every number worked out anew and held beside the one that was kept."""

import json
import zipfile
from dataclasses import dataclass, replace
from pathlib import Path

from kit.coursework import Answer, Kept, read_lesson
from kit.examples import INVENTED
from kit.faults import Fault
from kit.intake import read_run
from kit.intake.given import Raw
from kit.records import NAMES, Windows
from kit.report.findings import findings_of
from kit.report.material import Evidence, Material
from kit.report.pack import FORM, numbers_of, NUMBERS
from kit.report.version import versions
from kit.words import counted, listed, plain, table_html

LARGEST = 400_000_000  # bytes that a package may unpack to
NO_REPORT = "{name} is no report of the kit: {why}. Choose the .zip that make_report made, or the folder it was unpacked to."


@dataclass(frozen=True, eq=False)
class OpenedReport:
    """A report opened again. `same`: every kept number came out alike, to the last bit; `differing` names those that did not."""

    name: str
    evidence: tuple
    findings: tuple
    same: bool
    differing: tuple
    made_with: dict

    def __str__(self):
        runs = counted(len(self.evidence), "run")
        if self.same:
            return f"Report {self.name}: {runs}, and every number comes out the same."
        return f"Report {self.name}: {runs}. These numbers come out differently now: {listed(self.differing)}. {self._because()}"

    def _because(self):
        changed = [f"{name} {then} (now {versions().get(name)})" for name, then in self.made_with.items() if versions().get(name) != then]
        return f"It was made with {listed(changed)}." if changed else "The versions are the same: a file or a mark was changed."

    def _repr_html_(self):
        rows = [(found.evidence.run.name, found.of("effect")) for found in self.findings]
        return table_html([*rows, *(("made with", f"{name} {number}") for name, number in self.made_with.items())], str(self))

    def to_dict(self):
        """What JSON can keep."""
        return plain({"name": self.name, "same": self.same, "differing": self.differing, "made_with": self.made_with})


def open_report(source):
    """The `OpenedReport` of a package (`.zip`) or of the folder it was unpacked to. Nothing is written.

    A Fault where it is no report, where it is damaged, or where a file in it is not the one whose hash was kept.
    """
    read, name = _reader(Path(source))
    try:
        record = json.loads(read(NUMBERS))
        if record.get("form") != FORM:
            raise Fault(NO_REPORT.format(name=name, why="its report.json has another form"))
        evidence = tuple(_evidence(each, read, name) for each in record["runs"])
        material = Material(evidence, _written(record), tuple(record["faults"]))
    except (KeyError, TypeError, ValueError, AttributeError, OSError, zipfile.BadZipFile) as problem:
        raise Fault(NO_REPORT.format(name=name, why=f"its content can't be read ({problem})")) from problem
    findings = tuple(findings_of(each, material) for each in evidence)
    differing = tuple(_differing(record["runs"], findings))
    return OpenedReport(name, evidence, findings, not differing, differing, record["versions"])


def _reader(path):
    """(a function that gives a member's bytes, the report's name)."""
    if path.is_dir():
        return lambda member: _inside(path, member).read_bytes(), path.resolve().name
    try:
        archive = zipfile.ZipFile(path)
    except (OSError, zipfile.BadZipFile) as problem:
        raise Fault(NO_REPORT.format(name=path.name, why="it can't be opened as a zip file")) from problem
    if sum(member.file_size for member in archive.infolist()) > LARGEST:
        raise Fault(NO_REPORT.format(name=path.name, why="it would unpack to more than 400 MB"))
    return archive.read, path.name


def _inside(folder, member):
    """A path in `folder`; one that leads out of it is no member."""
    path = (folder / member).resolve()
    if not path.is_relative_to(folder.resolve()):
        raise ValueError(f"{member} leads out of the folder")
    return path


def _evidence(told, read, name):
    data = read(told["file"])
    run = read_run(Raw(told["file"].split("-", 1)[1], data), **told["keywords"])
    if run.source.sha256 != told["sha256"]:
        raise Fault(f"{told['file']} in {name} is not the file that the report was made from: its SHA-256 differs.")
    if told["kind"] == "simulated":
        run = replace(run, name=told["name"], kind="simulated", remarks=(INVENTED, *run.remarks))
    windows = Windows(**{each: tuple(told["windows"][each]) for each in NAMES})
    return Evidence(run, windows, data, told["keywords"], told["kind"] != "simulated", tuple(Answer(**each) for each in told["decisions"]))


def _written(record):
    return tuple((read_lesson(number), Kept(tuple(Answer(**each) for each in answers))) for number, answers in record["lessons"].items())


def _differing(kept, findings):
    for told, found in zip(kept, findings):
        now = json.loads(json.dumps(numbers_of(found)))
        for key in sorted(set(told["numbers"]) | set(now)):
            if told["numbers"].get(key) != now.get(key):
                yield f"{key} of {told['name']}"
