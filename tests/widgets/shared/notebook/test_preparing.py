"""In a notebook a Fault is a sentence in a box and a figure shows at once; everything else stays what it was."""

import subprocess
import sys
from pathlib import Path

import plotly.graph_objects as go
import pytest
from IPython.core.interactiveshell import InteractiveShell
from IPython.utils.capture import capture_output

from kit import chart, example_run
from kit.widgets.shared.notebook.preparing import prepare_notebook
from kit.widgets.shared.notebook.showing import bundles

TOP = Path(__file__).parents[4]


@pytest.fixture
def shell(monkeypatch):
    shell = InteractiveShell()
    monkeypatch.setattr(sys.modules["IPython"], "get_ipython", lambda: shell)
    prepare_notebook()
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
    assert prepare_notebook() is None


def test_a_figure_is_sent_once_as_jupyterlab_draws_it(shell, monkeypatch):
    sent = []
    monkeypatch.setattr(shell.display_pub, "publish", lambda data, **_: sent.append(data))
    figure = go.Figure(go.Scatter(x=[1, 2], y=[3, 4], name="treated"), layout={"title": {"text": "Two points"}})
    assert shell.display_formatter.format(figure) == ({}, {})
    bundle, table = sent
    assert "<th>treated</th></tr><tr><td>1.00</td><td>3.00</td></tr>" in table["text/html"]
    assert bundle["text/plain"] == "Two points" and bundle["application/vnd.plotly.v1+json"]["data"][0]["y"] == [3, 4]


def test_showing_a_figure_loads_no_schema_checker():
    code = (
        "import sys; import plotly.graph_objects as go; from kit.widgets.shared.notebook.showing import bundles; "
        "bundles(go.Figure()); print('jsonschema' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], cwd=TOP, capture_output=True, text=True, check=True).stdout == "False\n"


def test_a_chart_of_the_kit_goes_under_its_heading_as_text_that_a_narrow_page_wraps():
    heading, bundle, _ = bundles(chart(example_run("basalt")))
    assert "<strong>Run basalt (simulated)</strong><br>First to last reading" in heading["text/html"]
    assert not bundle["application/vnd.plotly.v1+json"]["layout"]["title"]["text"] and bundle["text/plain"] == "Run basalt (simulated)"
