"""What a class handed in, from a folder or a zip: hand-ins, plain files, or both. Each is read anew; one that is damaged is named and passed over."""

from dataclasses import dataclass, replace
from functools import lru_cache
from hashlib import sha256
from pathlib import Path, PurePosixPath

from kit.analysis.effect import paired_effect, suggest_windows
from kit.coursework import LESSONS
from kit.examples import example_names, example_path
from kit.faults import Fault
from kit.intake.classes import class_of, members_of, RECORDS
from kit.intake.given import Raw
from kit.report import NUMBERS, open_package, zipped
from kit.words import counted

KINDS = RECORDS | {".zip", ".json"}
DEEPEST = 2  # a zip of the class may hold the zips that learners handed in, and no further ones
LARGEST_BYTES = 768 * 2**20
DAMAGED = "This hand-in is damaged ({}). Have it made anew, or ask for the run's own file."


@dataclass(frozen=True, eq=False)
class GroupRun:
    """One run of the class. `group`: whose it is; `windows` with `marked`: set by the group, else suggested; `effect`, or `why` there is none."""

    name: str
    group: str
    run: object
    windows: object = None
    marked: bool = False
    effect: object = None
    why: str = ""

    @property
    def key(self):
        """What names it in the desk's own file: its record, whatever it is called today."""
        return self.run.source.sha256[:16]


@dataclass(frozen=True)
class Unread:
    """What could not be read: the `file`, the reason with what to do, and `whom` to ask."""

    file: str
    why: str
    whom: str

    def __str__(self):
        return f"{self.file}: {self.why} Ask: {self.whom}."


@dataclass(frozen=True, eq=False)
class Collected:
    """All that came in: `runs` (`GroupRun`), `packages` (one for each learner or group who handed in), `unread` (`Unread`), `remarks`."""

    runs: tuple = ()
    packages: tuple = ()
    unread: tuple = ()
    remarks: tuple = ()

    def __str__(self):
        parts = [counted(len(self.packages), "hand-in"), counted(len(self.runs), "run")]
        unread = f" {counted(len(self.unread), 'file')} could not be read." if self.unread else ""
        return f"{' and '.join(parts)} came in.{unread}"


def collect(source, lessons=LESSONS):
    """The `Collected` of a folder or a zip, zips and folders in it included. Texts of lessons in `lessons` go before the kit's.

    Nothing in it is unpacked to the disk, run or trusted: numbers are worked out from the runs' own bytes. A Fault where the source itself
    can't be opened.
    """
    found = _Sorting(lessons)
    title, members, faults, _ = members_of(source, KINDS)
    _take(found, title, members, faults, 1)
    packages, older = _newest(found.packages)
    handed = [run for package in packages for run in _runs_of(package)]
    loose = class_of("", [raw for raw in found.loose], progress=lambda _: None)
    unread = [*found.unread, *(_unread(fault) for fault in loose.faults)]
    runs, twice = _once([*handed, *(_loose(run, loose.groups) for run in loose.runs)])
    return Collected(_own_names(runs), packages, tuple(unread), (*older, *twice, *_practice(packages)))


class _Sorting:
    """What was found so far, how many bytes, and where texts of `lessons` lie."""

    def __init__(self, lessons):
        self.lessons = lessons
        self.packages, self.loose, self.unread, self.size = [], [], [], 0


def _take(found, title, members, faults, depth):
    """Sort the files of one folder or zip: packages, further zips, records."""
    found.unread += [_unread(fault) for fault in faults]
    found.size += sum(len(raw.data) for raw in members)
    if found.size > LARGEST_BYTES:
        raise Fault(f"All files together hold more than {LARGEST_BYTES // 2**20} MiB. Bring the class in as two halves.")
    homes = [raw.name.removesuffix(NUMBERS) for raw in members if PurePosixPath(raw.name).name == NUMBERS]
    for home in homes:
        inside = {raw.name.removeprefix(home): raw.data for raw in members if raw.name.startswith(home)}
        _open(found, Raw(home.rstrip("/") or title, zipped(inside)))
    for raw in members:
        if raw.name.startswith(tuple(homes)):
            continue
        if raw.name.lower().endswith(".zip"):
            _unzip(found, raw, depth)
        elif PurePosixPath(raw.name).suffix.lower() in RECORDS:
            found.loose.append(raw)


def _open(found, raw):
    try:
        found.packages.append(open_package(raw, found.lessons))
    except Fault as fault:
        found.unread.append(Unread(raw.name, DAMAGED.format(fault.__cause__ or fault), PurePosixPath(raw.name).stem))


def _unzip(found, raw, depth):
    try:
        if depth > DEEPEST:
            raise Fault("It is a zip in a zip in a zip.")
        inside = members_of(raw, KINDS)
    except Exception as problem:  # a zip can be damaged in any way; whichever it is, it is this one's, and the others are read
        return found.unread.append(Unread(raw.name, f"It can't be opened as a zip file ({problem}). Have it made anew.", PurePosixPath(raw.name).stem))
    _, members, faults, _ = inside
    _take(found, raw.name, members, faults, depth + 1)


def _unread(fault):
    place = PurePosixPath(fault.file or "a file")
    return Unread(str(place), f"{fault.what} {_choices(fault)}".strip(), place.parent.name or place.stem)


def _choices(fault):
    """What to do, without the call that would settle it: the desk is for people who don't type code."""
    return " ".join(f"{question.text} It could be {', '.join(map(str, question.choices))}." for question in fault.questions) or fault.do


def _newest(packages):
    """(packages, remarks): of several with one and the same work, the one in which most was answered."""
    kept, remarks = [], []
    for package in sorted(packages, key=lambda each: len(_stamps(each)), reverse=True):
        later = next((each for each in kept if _stamps(package) and _stamps(package) <= _stamps(each)), None)
        if later:
            remarks.append(f"{package.name} holds the same work as {later.name}, not newer. It is passed over.")
        else:
            kept.append(package)
    return tuple(sorted(kept, key=lambda each: each.name)), tuple(remarks)


def _stamps(package):
    """Every answer but notes, which grow, by its card and its time."""
    answers = [answer for _, kept in package.material.written for answer in kept.answers if answer.kind != "note"]
    return {(answer.card, answer.kind, answer.at) for answer in answers}


def _runs_of(package):
    """The runs in a package that are no runs of the kit's own, whatever it says of them."""
    who = package.sender or PurePosixPath(package.name).stem
    own = [piece for piece in package.material.evidence if piece.run.source.sha256 not in _bundled()]
    return [_measured(GroupRun(piece.run.name, who, piece.run, piece.windows, marked=True)) for piece in own]


def _loose(run, groups):
    made = GroupRun(run.name, (groups or {}).get(run.name, run.name), run)
    try:
        return _measured(replace(made, windows=suggest_windows(run)))
    except Fault as fault:
        return replace(made, why=str(fault))


def _measured(made):
    try:
        effect = paired_effect(made.run, made.windows)
    except Fault as fault:
        return replace(made, why=str(fault))
    return replace(made, effect=effect)


@lru_cache(maxsize=1)
def _bundled():
    """The hashes of the runs that lessons bring along, those of an open course, too."""
    return {sha256(example_path(name).read_bytes()).hexdigest() for name in example_names()}


def _once(runs):
    """(runs, remarks): the same record handed in twice, by two who worked together, counts once."""
    first, remarks = {}, []
    for made in runs:
        twin = first.setdefault(made.run.source.sha256, made)
        if twin is not made:
            remarks.append(f"{made.group} and {twin.group} brought the same record of {made.name}, byte for byte. It counts once, with {twin.group}'s windows.")
    return list(first.values()), remarks


def _own_names(runs):
    """Each run under a name of its own: its group's, with the run's where a group has several."""
    several = [made.group for made in runs]
    named, seen = [], {}
    for made in runs:
        name = made.group if several.count(made.group) == 1 else f"{made.group}, {made.name}"
        seen[name] = seen.get(name, 0) + 1
        named.append(replace(made, name=name if seen[name] == 1 else f"{name} ({seen[name]})"))
    return tuple(named)


def _practice(packages):
    held = sum(any(piece.run.source.sha256 in _bundled() for piece in package.material.evidence) for package in packages)
    return (f"{counted(held, 'hand-in')} also {'holds' if held == 1 else 'hold'} marks on runs of the kit. Those are not pooled.",) if held else ()
