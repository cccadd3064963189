"""`test`: every test, in three rounds: the quick ones, those that drive a browser, and by itself what measures time."""

import os
import subprocess
import sys
import time
from pathlib import Path
from xml.etree import ElementTree

from kit.bootstrap.places import CHECKOUT

TESTS, REPORTS = CHECKOUT / "tests", CHECKOUT / "ci-output"
# pytest's exit statuses (its documentation, "Exit codes"): 0 passed, 1 some failed, 2 to 4 it could not finish, 5 no test was chosen.
PASSED, FAILED, NOTHING_CHOSEN = 0, 1, 5


def test(options):
    """Run the tests that the words choose; 0 only if all of them passed."""
    began, chosen, statuses = time.monotonic(), choice(options.words), []
    for name, which in rounds().items():
        statuses.append(run(name, [*which, *chosen, *options.rest]))
        if statuses[-1] not in (PASSED, FAILED, NOTHING_CHOSEN):
            break
    reports = [REPORTS / f"tests-{name}.xml" for name in rounds()][: len(statuses)]
    print(*cut_short(reports), *tried_again(reports), closing_line(reports, time.monotonic() - began), sep="\n", flush=True)
    return overall(statuses)


def rounds():
    """pytest's words for each round. In the browser's, each process has a server, a browser and its windows of its own, and tests of one
    file share more: so it takes a run of tests, and some of another's when it is done with them."""
    at_once = ["-n", str(os.cpu_count() or 1)]
    return {
        "together": ["-m", "not browser and not alone", *at_once],
        "browser": ["-m", "browser and not alone", *at_once, "--dist", "worksteal"],
        "alone": ["-m", "alone"],
    }


def choice(words):
    """pytest's words for ours: paths of tests narrow where to look, the others (any of them) which tests by name."""
    paths = [path for word in words if (path := as_path(word))]
    names = [word for word in words if not as_path(word)]
    return [*paths, *(["-k", " or ".join(names)] if names else [])]


def as_path(word):
    """The path of tests that `word` means, from here or from the tests folder, with the test's name after `::`. None for any other word."""
    path, *name = word.split("::")
    inside = [place for place in (Path(path).absolute(), CHECKOUT / path, TESTS / path) if place.exists() and place.is_relative_to(TESTS)]
    return "::".join([str(inside[0]), *name]) if inside else None


def run(name, arguments):
    """One round; pytest's exit status. Its counts are kept in ci-output."""
    report = REPORTS / f"tests-{name}.xml"
    report.unlink(missing_ok=True)
    told = ["-rs", "--no-fold-skipped", f"--junitxml={report}"]  # each skipped test says its name and why
    return subprocess.run([sys.executable, "-m", "pytest", *told, *arguments], cwd=CHECKOUT).returncode


def cut_short(reports):
    """A line for each round that has left no counts."""
    return [f"A round ended before its tests had: {report.stem}. Why is said above" for report in reports if not report.exists()]


def tried_again(reports):
    """A line for each test that failed at first and was tried again (tests/conftest.py)."""
    cases = [(report.name, case) for report in reports if report.exists() for case in ElementTree.parse(report).iter("testcase")]
    again = [(name, case.get("name"), case.findall("properties/property[@name='failed']")) for name, case in cases]
    return [f"{test} was tried {len(failed) + 1} times; why is in ci-output/{name}" for name, test, failed in again if failed]


def closing_line(reports, seconds):
    """'N passed, N failed, N skipped in N s' over all rounds."""
    counts = [suite.attrib for report in reports if report.exists() for suite in ElementTree.parse(report).iter("testsuite")]
    ran, skipped = (sum(int(each[kind]) for each in counts) for kind in ("tests", "skipped"))
    failed = sum(int(each["failures"]) + int(each["errors"]) for each in counts)
    return f"{ran - failed - skipped} passed, {failed} failed, {skipped} skipped in {seconds:.0f} s"


def overall(statuses):
    """The first status that tells of trouble. That no test was chosen is trouble only if it is so in every round."""
    ran = [each for each in statuses if each != NOTHING_CHOSEN]
    return next((each for each in ran if each != PASSED), PASSED) if ran else NOTHING_CHOSEN
