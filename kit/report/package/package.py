"""A package opened: its record, its runs read anew from their own bytes, and its answers. Nothing in it is trusted, run or written down."""

import json
import zipfile
from dataclasses import dataclass, replace
from io import BytesIO
from pathlib import Path

from kit.coursework import answer_of, decided_run, decisions_of, Kept, read_lesson
from kit.examples import INVENTED
from kit.faults import Fault
from kit.intake import read_run
from kit.intake.classes import ClassRuns, zip_bytes, zip_files
from kit.intake.given import Raw
from kit.records import NAMES, Windows
from kit.report.classwork import ClassWork
from kit.report.material import Evidence, Material
from kit.report.package.pack import FORM, NUMBERS
from kit.settings import problems_with

LARGEST, LARGEST_RECORD = 400_000_000, 16_000_000  # bytes: of all that a package may unpack to, and of its report.json
EARLIER_TOLERANCE = 0.01  # °C a minute, of packages that do not say it
NO_REPORT = "{name} is no report of the kit: {why}. Choose the .zip that the kit made, or the folder it was unpacked to."


@dataclass(frozen=True, eq=False)
class Package:
    """What a package holds: its `record` as it stands there, and the `material` read anew. `sender`: who it says it is from, '' if nobody."""

    name: str
    record: dict
    material: Material

    @property
    def sender(self):
        return str(self.record.get("from", "")).strip()[:60]


def open_package(source, folder=None):
    """The `Package` in a zip (a path, or `Raw` bytes) or in the folder it was unpacked to; texts of lessons beside `folder` go first.

    A Fault where it is none, where it is damaged, or where a file in it is not the one whose hash was kept.
    """
    read, name = _reader(source)
    try:
        record = _record(read(NUMBERS))
        evidence = tuple(_evidence(each, read, name) for each in record["runs"])
        written, strange = _lessons(record["lessons"], folder)
        faults = (*map(str, record["faults"]), *strange)
        material = Material(evidence, written, faults, _tolerance(record), _class(record.get("class"), read))
        return Package(name, record, material)
    except Exception as problem:  # a package can be damaged in any way; whichever it is, it is this one's, and the others are read
        raise Fault(NO_REPORT.format(name=name, why=f"its content can't be read ({problem})")) from problem


def _tolerance(record):
    """The drift (°C a minute) that its ranges allow for; one that can't be raises."""
    tolerance = record.get("tolerance_c_per_min", EARLIER_TOLERANCE)
    if problems_with({"tolerance_c_per_min": tolerance}):
        raise ValueError("its tolerance is no number that can be")
    return tolerance


def _class(told, read):
    """The `ClassWork` as its runs' files give it; None where there is none."""
    if not told:
        return None
    runs = tuple(replace(read_run(Raw(each["file"], read(each["file"]))), name=str(each["name"])) for each in told["runs"])
    windows = {str(each["name"]): _windows(each["windows"]) for each in told["runs"] if each["windows"]}
    left_out = tuple((str(name), str(why)) for name, why in told["left_out"])
    turned = tuple(map(str, told["turned"]))
    return ClassWork(ClassRuns(str(told["name"]), runs, groups=told["groups"]), windows, left_out, turned, bool(told["invented"]))


def _windows(told):
    return Windows(**{each: tuple(told[each]) for each in NAMES})


def _reader(source):
    """(a function that gives a member's bytes, the package's name)."""
    if isinstance(source, Raw):
        return _from_zip(BytesIO(source.data), source.name)
    path = Path(source)
    if path.is_dir():
        return lambda member: _inside(path, member).read_bytes(), path.resolve().name
    return _from_zip(path, path.name)


def _from_zip(source, name):
    try:
        archive = zipfile.ZipFile(source)
    except Exception as problem:
        raise Fault(NO_REPORT.format(name=name, why="it can't be opened as a zip file")) from problem
    if sum(member.file_size for member in archive.infolist()) > LARGEST:
        raise Fault(NO_REPORT.format(name=name, why="it would unpack to more than 400 MB"))
    members = dict(zip_files(archive))
    return lambda member: zip_bytes(member, members[member]), name


def _inside(folder, member):
    """A path in `folder`; one that leads out of it is no member."""
    path = (folder / member).resolve()
    if not path.is_relative_to(folder.resolve()):
        raise ValueError(f"{member} leads out of the folder")
    return path


def _record(data):
    if len(data) > LARGEST_RECORD:
        raise ValueError(f"its {NUMBERS} is longer than {LARGEST_RECORD // 10**6} MB")
    record = json.loads(data)
    if record.get("form") != FORM:
        raise ValueError(f"its {NUMBERS} has another form")
    return {**record, "versions": dict(record["versions"]), "runs": [{**each, "numbers": dict(each["numbers"])} for each in record["runs"]]}


def _evidence(told, read, name):
    """A run as its file and what was decided about it give it; of the numbers kept beside it nothing is taken over."""
    data, decisions = read(told["file"]), tuple(map(answer_of, told["decisions"]))
    run = read_run(Raw(told["file"].split("-", 1)[1], data), **told["keywords"])
    if run.source.sha256 != told["sha256"]:
        raise Fault(f"{told['file']} in {name} is not the file that the report was made from: its SHA-256 differs.")
    read_so, run = run.remarks, decided_run(run, decisions_of(Kept(decisions)))
    if told["kind"] == "simulated":
        run = replace(run, name=str(told["name"]), kind="simulated", remarks=(INVENTED, *run.remarks))
    return Evidence(run, _windows(told["windows"]), data, told["keywords"], told["kind"] != "simulated", decisions, read_so)


def _lessons(told, folder):
    """((Lesson, Kept), …) of the lessons that are known here, and a sentence for each that is not."""
    written, strange = [], []
    for number, answers in told.items():
        kept = Kept(tuple(map(answer_of, answers)))
        try:
            written.append((read_lesson(number, folder), kept))
        except Fault as fault:
            strange.append(str(fault))
    return tuple(written), tuple(strange)
