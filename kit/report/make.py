"""`make_report`: gather, work out, write the page and its package beside the learner's work."""

from dataclasses import dataclass
from datetime import datetime
from itertools import count
from pathlib import Path

from kit.faults import Fault
from kit.report.findings import findings_of, together_of
from kit.report.material import gather
from kit.report.package import notebook, NOTEBOOK, packed, PAGE, record_of, with_class
from kit.report.page import page, questions_open
from kit.storage import write_atomically
from kit.words import account, counted, plain, table_html

FOLDER = "reports"


@dataclass(frozen=True, eq=False)
class Report:
    """A report that was made: its page (`path`, HTML) and its package (`package`, zip), with how many runs; `questions` a reader would still ask."""

    path: Path
    package: Path
    runs: int
    questions: tuple
    faults: tuple

    def explain(self):
        """What lies where."""
        return account(
            f"{self.path.name} is the page: open it in any browser, print it, or send it. It needs no network.",
            f"{self.package.name} holds the page, the raw files, the marks and every number, so that a reader can check them.",
        )

    def __str__(self):
        asked = f" A reader would still ask {counted(len(self.questions), 'question')}." if self.questions else ""
        return f"Your report is kept in the folder {FOLDER} as {self.path.name}, made from {counted(self.runs, 'run')}.{asked}"

    def _repr_html_(self):
        files = [("page", f"{FOLDER}/{self.path.name}"), ("package", f"{FOLDER}/{self.package.name}")]
        asked = [("a reader would ask", question) for question in self.questions]
        return table_html([*files, *asked, *(("could not be taken in", fault) for fault in self.faults)], str(self))

    def to_dict(self):
        """What JSON can keep."""
        return plain({"path": self.path.name, "package": self.package.name, "runs": self.runs, "questions": self.questions, "faults": self.faults})


def make_report(folder=None):
    """A `Report` of all that a learner did in `folder` (without it: the notebook's own): runs with marks, predictions, notes, numbers.

    Two files are written into the folder `reports` there, under a new name each time: a page that needs no network, and a package with the
    raw files from which `open_report` works every number out again. A Fault where the folder can't be written to.
    """
    home, made_at = Path(folder or "."), datetime.now()
    material = gather(home)
    findings = tuple(findings_of(each, material) for each in material.evidence)
    together = together_of(material, findings)
    html = page(material, findings, together, made_at)
    path = _free_name(home / FOLDER, f"report-{made_at:%Y-%m-%d}")
    write_whole(path, html)
    record, class_files = with_class(record_of(material, findings, made_at), together, material.class_)
    pages = {PAGE: html, NOTEBOOK: notebook(findings), **class_files}
    write_whole(path.with_suffix(".zip"), packed(record, findings, pages))
    return Report(path, path.with_suffix(".zip"), len(findings), tuple(questions_open(material, findings)), material.faults)


def _free_name(folder, stem):
    """A page's name that neither page nor package has yet."""
    names = (folder / f"{stem}{'' if number == 1 else f'-{number}'}.html" for number in count(1))
    return next(path for path in names if not path.exists() and not path.with_suffix(".zip").exists())


def write_whole(path, content):
    """Write a file that somebody will take elsewhere. A Fault where the folder refuses."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        write_atomically(path, content)
    except OSError as problem:
        raise Fault(f"{path.name} could not be written ({problem.strerror}). Free some space or ask for help with the folder, then try again.") from problem
