"""What a report says of several runs at once: results at a glance, the class, causes as weighed, and who ticked what."""

import json
import re
import zipfile

from kit import Windows, class_effect, example_run, make_report, open_report, paired_effect, read_class, weigh_causes
from kit.coursework import Answer, add_answer, answers_path, keep_marks
from tests.report.conftest import bring
from tests.report.test_make import text

MARKS = Windows.of_perturbation(11)


def section(html, heading):
    """The text of the section under that heading, without its marks."""
    found = re.search(rf"<section[^>]*><h2>{heading}</h2>(.*?)(?=<h2>|</main>)", html, re.S)
    return re.sub(r"<[^>]+>", " ", found[1]) if found else ""


def test_causes_are_weighed_from_the_runs_of_which_it_was_said_what_was_done(several):
    told = section(text(make_report()), "What could have warmed it")
    effects = {kind: paired_effect(example_run(name), MARKS) for kind, name in (("gas", "basalt"), ("covered", "basalt-covered"), ("air", "flint-air"))}
    assert str(weigh_causes(effects)) in told and "film over both mouths once the gas is in" in told


def test_bundled_runs_are_weighed_where_there_are_no_own_ones(folder):
    keep_marks(example_run("basalt-covered"), MARKS)
    assert "Each cause, given all runs" in text(make_report())


def test_one_run_gives_sizes_only(folder):
    html = text(make_report())
    assert "Each cause by its size" in html and "Each cause, given all runs" not in html and "Results at a glance" not in html


def test_a_run_without_gas_has_no_cause_to_look_for(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    bring("flint-air", "our-air.csv", "air")
    assert "What could have warmed it" not in text(make_report())


def test_the_class_is_that_of_the_folder(several):
    told = section(text(make_report()), "The class")
    assert str(class_effect(read_class("class"))) in told and "marble" in told and "are invented" not in told


def test_a_run_laid_among_the_invented_groups_says_so(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    path = bring("basalt", "our-co2.csv", "gas")
    add_answer(path, Answer("class", "added", {"to": "example"}))
    told = section(text(make_report()), "The class")
    assert "our-co2" in told and "are invented" in told


def test_the_class_is_as_it_was_decided_on_the_board_of_lesson_09(several):
    choices = {"name": "class", "left_out": {"flint": "Its lamp was moved."}, "turned": ["marble"]}
    add_answer(answers_path("09"), Answer("09.board", "class", choices))
    report = make_report()
    told = section(text(report), "The class")
    assert "Its lamp was moved." in told and "places of the vessels changed: marble" in told and "2 groups" in told
    assert open_report(report.package).same


def test_marks_on_a_run_of_the_class_count(several):
    before = section(text(make_report()), "The class")
    run = read_class("class").runs[0]
    keep_marks(run, Windows((9, 10), (11, 12), (18, 19)))
    report = make_report()
    assert section(text(report), "The class") != before and open_report(report.package).same


def test_a_class_that_cannot_be_read_is_told_and_stops_nothing(several):
    for path in (several / "class").iterdir():
        path.write_text("nothing to read")
    report = make_report()
    assert report.runs == 3 and any("holds no run that can be read" in fault for fault in report.faults)


def test_the_rubric_stands_there_as_writer_and_reader_ticked_it(several):
    html = text(make_report())
    told = section(html, "How far the page goes")
    assert "4 of 12 points" in told and "8 of 12 points" in told and "A direction: it got warmer." in told
    assert "A reader asked: Did the &lt;lamp&gt; move?" in html


def test_every_run_at_a_glance_and_what_is_not_said_is_asked(several):
    bring("basalt-filter", "our-tank.csv")
    report = make_report()
    told = section(text(report), "Results at a glance")
    assert all(name in told for name in ("our-co2", "our-covered", "our-air", "our-tank")) and "nobody said" in told
    assert any(question.startswith("What was done in run our-tank?") for question in report.questions)


def test_an_air_run_that_shows_nothing_is_no_open_question(several):
    assert not any("our-air" in question for question in make_report().questions)


def test_a_run_brought_in_under_another_name_counts_once(several):
    keep_marks(example_run("basalt"), MARKS)
    assert make_report().runs == 3


def test_the_windows_are_those_of_the_effect_that_was_kept(several):
    keep_marks(example_run("basalt"), Windows((9, 10), (11, 12), (18, 19)))
    assert "20 min 30 s to 21 min 30 s" in text(make_report()) and "18 min 0 s" not in text(make_report())


def test_odd_places_stand_with_what_was_decided_and_why(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    path = bring("dolomite", "logger.csv", "gas", time="Logger time")
    place = str(example_run("dolomite").odd_places()[-1])
    add_answer(path, Answer("odd", "decided", {"place": place, "choice": "out", "reason": "Somebody touched the probe."}))
    html = text(make_report())
    assert place in html and "left out" in html and "Somebody touched the probe." in html


def test_the_numbers_of_all_runs_together_come_out_the_same_bit_for_bit(several):
    package = make_report().package
    again = open_report(package)
    kept = json.loads(zipfile.ZipFile(package).read("report.json"))["together"]
    assert again.same and set(kept) == {"class", "causes"}
    assert kept["class"]["mean"]["value"] == class_effect(read_class("class")).mean.value


def test_another_reading_in_the_class_shows_as_another_number(several):
    package = make_report().package
    copy = package.with_name("changed.zip")
    with zipfile.ZipFile(package) as old, zipfile.ZipFile(copy, "w") as new:
        for name in old.namelist():
            content = old.read(name)
            new.writestr(name, re.sub(rb"\n(6[0-9]+(?:\.0)?),(2[0-9]\.)", rb"\n\1,1\2", content) if name == "class/2.csv" else content)
    assert "class" in open_report(copy).differing


def test_no_sentence_of_a_result_stands_twice(several):
    html = text(make_report())
    visible = re.sub(r"<svg.*?</svg>|<details.*?</details>", "", html, flags=re.S)
    lines = [line for line in re.split(r"</?(?:p|td|li|th|caption|h\d)[^>]*>", visible) if len(line) > 60 and "<" not in line]
    twice = {line for line in lines if lines.count(line) > 1 and "How the file was read" not in line}
    assert len(twice) <= 2, twice


def test_twenty_runs_make_one_page_of_less_than_a_megabyte(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    for number in range(20):
        bring("slate-hand", f"run-{number}.csv", "gas", tail=b"\n" * number)
    report = make_report()
    html = text(report)
    assert report.runs == 20 and report.path.stat().st_size < 1_000_000
    assert html.count("The way there") == 20 and html.count('<figure class="curve"') == 6 and "for the first 6 runs" in html
