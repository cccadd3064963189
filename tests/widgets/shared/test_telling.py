"""A view shows its own faults."""

from kit.faults import Fault
from kit.widgets.shared.telling import told


def test_a_fault_becomes_its_text_and_a_surprise_a_sentence():
    def answer(thing):
        if thing == "fault":
            raise Fault("Mark the baseline first.")
        return 1 / thing

    safe = told(answer)
    assert safe(2) == 0.5 and safe("fault") == "Mark the baseline first."
    assert safe(0) == "The kit met something it did not expect (ZeroDivisionError: division by zero). Your work is kept. Load this page again."
