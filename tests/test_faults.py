"""Faults say what happened, where, and what to do; in a notebook they show without a traceback."""

from kit.faults import Caution, Fault, IntakeFault


def test_an_intake_fault_names_the_place_first():
    place = {"file": "run.csv", "line": 7, "column": "temp", "seen": "1,204", "keyword": "decimal"}
    fault = IntakeFault("'1,204' may be 1204 or 1.204.", "Say decimal=',' or decimal='.'.", **place)
    assert str(fault) == "run.csv, line 7, column temp: '1,204' may be 1204 or 1.204. Say decimal=',' or decimal='.'."
    assert (fault.line, fault.column, fault.seen, fault.keyword) == (7, "temp", "1,204", "decimal")


def test_a_fault_without_a_place_is_its_sentence():
    assert str(IntakeFault("The file is empty.")) == "The file is empty."


def test_ipython_shows_the_sentence_alone():
    assert Fault("Mark the baseline first.")._render_traceback_() == ["Mark the baseline first."]


def test_a_caution_reads_as_its_text():
    assert str(Caution("few_readings", "Only 3 readings.")) == "Only 3 readings."
