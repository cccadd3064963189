"""A Fault in a notebook is a sentence in a box; everything else stays what it was."""

import sys

import pytest
from IPython.core.interactiveshell import InteractiveShell
from IPython.utils.capture import capture_output

from kit.widgets.faultbox import show_faults_as_boxes


@pytest.fixture
def shell(monkeypatch):
    shell = InteractiveShell()
    monkeypatch.setattr(sys.modules["IPython"], "get_ipython", lambda: shell)
    show_faults_as_boxes()
    return shell


def shown(shell, code, monkeypatch):
    sent = []
    monkeypatch.setattr(shell.display_pub, "publish", lambda data, **_: sent.append(data["text/html"]))
    with capture_output() as printed:
        assert not shell.run_cell(code).success
    return "".join(sent), printed.stdout + printed.stderr


def test_a_fault_is_its_sentence_in_a_box_without_a_traceback(shell, monkeypatch):
    code = "from kit.faults import IntakeFault; raise IntakeFault('This is <b> 245 °C.', 'Say decimal.', file='run.csv', line=3)"
    html, printed = shown(shell, code, monkeypatch)
    assert "run.csv, line 3: This is &lt;b&gt; 245 °C. Say decimal." in html and "Traceback" not in printed + html


def test_another_exception_keeps_its_traceback(shell, monkeypatch):
    html, printed = shown(shell, "1 / 0", monkeypatch)
    assert html == "" and "ZeroDivisionError" in printed


def test_outside_a_notebook_nothing_happens(monkeypatch):
    monkeypatch.delitem(sys.modules, "IPython")
    assert show_faults_as_boxes() is None
