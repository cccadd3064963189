"""A report of a learner's folder: complete, safe, small, and written under a new name each time."""

import json
import re
import time
import zipfile
from xml.etree import ElementTree

import pytest

from kit import Fault, Windows, example_run, make_report
from kit.coursework import keep_marks
from tests.report.conftest import CLAIM, write


def text(report):
    return report.path.read_text(encoding="utf-8")


def test_it_holds_claim_evidence_predictions_safety_and_origins(folder):
    html = text(make_report())
    for wanted in (CLAIM.replace("'", "&#x27;"), "run basalt", "How much warmer", "1 to 3 °C warmer", "Safety", "SHA-256", "simulated"):
        assert wanted in html, wanted
    assert html.count("<svg") == 4 and html.count("This number, step by step") == 2


def test_it_needs_nothing_from_outside(folder):
    html = text(make_report())
    assert not re.search(r"<script|<link|<img|\bsrc=|@import|url\(", html)
    assert set(re.findall(r'https?://[^"\s<]+', html)) <= {"http://www.w3.org/2000/svg"}


def test_no_word_of_a_learner_or_a_file_runs_as_markup(folder):
    write("00.claim", "note", text="<script>alert(1)</script> and 2 < 3")
    html = text(make_report())
    assert "<script" not in html and "&lt;script&gt;" in html and "<b>it</b>" not in html


@pytest.mark.alone
def test_it_is_small_and_quick(folder):
    make_report()
    began = time.process_time()
    report = make_report()
    assert time.process_time() - began < 4  # the aim is 2 s on a quiet machine
    assert report.path.stat().st_size < 1_000_000


def test_nothing_is_overwritten(folder):
    first, second = make_report(), make_report()
    assert first.path != second.path and first.path.exists() and second.package.exists()


def test_what_a_reader_would_ask(folder):
    assert make_report().questions == ("Is that what others find? No comparison was made: it needs a margin, chosen beforehand (lesson 08).",)
    write("00.claim", "note", text="It got warmer.")
    assert make_report().questions[:2] == ("By how much? The claim names no number.", "What does the run not show? The claim names no limit.")
    write("00.claim", "note", text="It got 1.5 °C warmer.")
    assert make_report().questions[0] == "How sure are you? The claim has no range."


def test_a_margin_that_was_decided_brings_the_comparison(folder):
    write("08.margin", "decision", margin_c=0.3)
    report = make_report()
    assert "Against the reference run" in text(report) and not report.questions


def test_an_empty_folder_gives_a_page_that_says_what_is_missing(tmp_path):
    report = make_report(tmp_path)
    assert report.runs == 0 and "No run has marked windows yet" in text(report)
    no_run = "Where are the readings? No run has marked windows yet: mark one in lesson 00, or bring your own."
    assert report.questions == ("What do you claim? One sentence, in lesson 00 or 12.", no_run)


def test_marks_that_give_no_number_are_told_with_the_reason(folder):
    keep_marks(example_run("gneiss-short"), Windows((0, 0.1), (0.1, 0.2), (0.2, 0.3)))
    assert make_report().runs == 2


def test_a_folder_that_refuses_is_a_sentence(folder):
    (folder / "reports").write_text("in the way")
    with pytest.raises(Fault, match="could not be written"):
        make_report()


def test_the_package_can_be_checked_without_the_kit(folder):
    with zipfile.ZipFile(make_report().package) as archive:
        names = set(archive.namelist())
        assert {"report.html", "report.json", "report.ipynb", "README.txt", "raw/1-basalt.csv", "readings/1.csv"} == names
        record = json.loads(archive.read("report.json"))
        assert archive.read("readings/1.csv").splitlines()[0].startswith(b"elapsed_s,treated_degC,control_degC")
    assert record["runs"][0]["numbers"]["effect"]["warming"]["unit"] == "°C" and record["units"]["times of windows"] == "min"


def test_every_picture_in_it_is_well_formed(folder):
    pictures = re.findall(r"<svg.*?</svg>", text(make_report()), re.S)
    assert pictures and all(ElementTree.fromstring(each) is not None for each in pictures)
