"""A chart of lines can be read as a table."""

import re

import numpy as np
import plotly.graph_objects as go
from plotly.subplots import make_subplots

from kit.widgets.shared.notebook.tables import figure_table


def rows(html):
    return [re.findall(r"<t[hd]>(.*?)</t[hd]>", row) for row in re.findall(r"<tr>(.*?)</tr>", html)]


def test_lines_become_columns_named_with_their_units():
    figure = make_subplots(2, 1, shared_xaxes=True)
    minutes = np.linspace(0, 22, 100)
    figure.add_scatter(x=minutes, y=20 + minutes, name="treated", row=1, col=1)
    figure.add_scatter(x=minutes, y=np.where(minutes < 11, 400.0, 9e5), name="CO2", row=2, col=1)
    figure.update_yaxes(title_text="°C", row=1).update_yaxes(title_text="ppm", row=2).update_xaxes(title_text="time (min)", row=2)
    head, first, *_, last = rows(figure_table(figure))
    assert head == ["time (min)", "treated (°C)", "CO2 (ppm)"] and first == ["0.00", "20.00", "400"] and last == ["22.00", "42.00", "900000"]
    assert len(rows(figure_table(figure))) == 13


def test_a_missing_value_is_a_dash_and_names_are_text():
    figure = go.Figure([go.Scatter(x=[0, 1], y=[np.nan, -1.5], name="<b>"), go.Scatter(x=[0, 1], y=[np.nan, np.nan], name="off")])
    assert rows(figure_table(figure)) == [["x", "&lt;b&gt;", "off"], ["0.00", "–", "–"], ["1.00", "−1.50", "–"]]


def test_a_chart_without_lines_has_no_table():
    assert figure_table(go.Figure(go.Bar(x=["a", "b"], y=[1, 2], name="bars"))) == ""
    assert figure_table(go.Figure(go.Scatter(x=[1, 2], y=[3, 4]))) == "" and figure_table(go.Figure()) == ""
