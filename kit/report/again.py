"""A report opened again: the same files, the same marks, and every number worked out anew and held beside the one that was kept."""

import json
from dataclasses import dataclass

from kit.report.findings import findings_of, together_of
from kit.report.package import numbers_of, numbers_together, open_package
from kit.report.version import versions
from kit.words import counted, listed, plain, table_html


DECIDING = ("verdict", "unit", "code")


@dataclass(frozen=True, eq=False)
class OpenedReport:
    """A report opened again. `same`: every kept number came out alike, to the last bit; `differing` names those that did not.
    `findings`: those on each run; `together`: those on all runs."""

    name: str
    evidence: tuple
    findings: tuple
    together: tuple
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
        rows += [(each.heading, each.result or each.missing) for each in self.together]
        return table_html([*rows, *(("made with", f"{name} {number}") for name, number in self.made_with.items())], str(self))

    def to_dict(self):
        """What JSON can keep."""
        return plain({"name": self.name, "same": self.same, "differing": self.differing, "made_with": self.made_with})


def open_report(source):
    """The `OpenedReport` of a package (`.zip`) or of the folder it was unpacked to. Nothing is written.

    A Fault where it is no report, where it is damaged, or where a file in it is not the one whose hash was kept.
    """
    package = open_package(source)
    findings = tuple(findings_of(each, package.material) for each in package.material.evidence)
    together = together_of(package.material, findings) if "together" in package.record else ()
    differing = tuple(_differing(package.record, findings, together))
    return OpenedReport(package.name, package.material.evidence, findings, together, not differing, differing, package.record["versions"])


def _differing(record, findings, together):
    for told, found in zip(record["runs"], findings):
        yield from (f"{key} of {told['name']}" for key in _unlike(told["numbers"], numbers_of(found)))
    yield from _unlike(record.get("together", {}), numbers_together(together))


def _unlike(kept, numbers):
    """Keys under which kept and new numbers are not alike."""
    now = json.loads(json.dumps(numbers))
    return [key for key in sorted({*kept, *now}) if _wordless(kept.get(key)) != _wordless(now.get(key))]


def _wordless(thing):
    """What is left without sentences, which are told in the unit of whoever's class it is: numbers, and the words that decide."""
    if isinstance(thing, dict):
        return {name: _wordless(each) for name, each in thing.items() if name in DECIDING or not isinstance(each, str)}
    return [_wordless(each) for each in thing if not isinstance(each, str)] if isinstance(thing, list) else thing
