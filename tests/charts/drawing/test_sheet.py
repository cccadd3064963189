"""How charts are built: panels under one another or side by side, uneven ranges, colours from one place."""

import re
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import plotly.graph_objects as go
import pytest

from kit.charts import headless
from kit.charts.drawing.sheet import Panel, line, ranged, reach, remark, row_axis, row_label, sheet, upright
from kit.charts.still import svg
from kit.charts.drawing.style import TREATED
from kit.estimate import Estimate

CHARTS = Path(__file__).parents[3] / "kit" / "charts"
SLOPE = line([0, 10], [0, 5], TREATED)


@pytest.fixture
def estimate():
    return replace(Estimate.from_error(2.0, 0.5, 2), low=1.5, high=4.0)


def test_an_uneven_range_reaches_as_far_as_it_says(estimate):
    bar = reach(estimate.value, estimate, TREATED)
    assert (bar["array"], bar["arrayminus"]) == ([2.0], [0.5])
    assert ranged(estimate, "here", TREATED)["error_x"] == bar


def test_a_range_without_ends_is_no_bar(estimate):
    assert reach(2.0, replace(estimate, high=float("inf")), TREATED) is None


def test_panels_share_the_height_as_they_say_and_what_is_drawn_stays_in_its_own():
    above = Panel([SLOPE], heading="above", share=3)
    below = Panel([SLOPE], marks=[upright(5)], notes=[remark("below", 1, 1, TREATED)])
    figure = sheet(above, below, title="Two", gap=0.2, tied="x")
    low, high = figure.layout.yaxis.domain
    assert (low, high) == (pytest.approx(0.4), 1) and figure.layout.yaxis2.domain == pytest.approx((0, 0.2))
    assert figure.layout.shapes[0].xref == "x2" and figure.layout.shapes[0].yref == "y2 domain"
    assert [each.xref for each in figure.layout.annotations] == ["x domain", "x2"]
    assert figure.layout.xaxis2.matches == "x" and not figure.layout.xaxis.showticklabels and figure.layout.xaxis2.showticklabels


def test_a_grid_has_numbers_at_its_outermost_axes_only():
    figure = sheet(*[Panel([SLOPE]) for _ in range(5)], title="Five", columns=3, tied="xy")
    shown = [axis.showticklabels for axis in figure.select_xaxes()], [axis.showticklabels for axis in figure.select_yaxes()]
    assert shown == ([False, False, True, True, True], [True, False, False, True, False])


def test_a_long_sentence_gets_the_lines_and_the_room_it_needs():
    short, long = (sheet(Panel([SLOPE]), title="Run", said="word " * count).layout for count in (2, 100))
    assert long.title.subtitle.text.count("<br>") == 4 and long.margin.t - short.margin.t == 64 == long.height - short.height


def test_colours_stand_in_the_style_module_only():
    named = {path.name for path in CHARTS.rglob("*.py") if re.search(r"""["']#[0-9a-fA-F]{3,6}["']|rgba?\(\d""", path.read_text(encoding="utf-8"))}
    assert named == {"style.py"}


def test_there_is_one_way_to_build_a_chart():
    builders = {path.name for path in CHARTS.rglob("*.py") if re.search(r"go\.Figure|make_subplots|add_trace|add_annotation", path.read_text("utf-8"))}
    assert builders == {"sheet.py"}


def test_a_name_is_shown_letter_by_letter_and_never_taken_for_markup():
    name = "<a href='https://example.org'>R&D</a>"
    row = Panel([line([0, 1], [name, name], TREATED)], heading=name, yaxis=row_axis([name]), notes=[row_label(name, "1 °C", TREATED)])
    figure = sheet(row, title=name, said=name)
    texts = [figure.layout.title.text, figure.layout.title.subtitle.text, *(note.text for note in figure.layout.annotations)]
    assert all("&lt;a href" in text and "<a" not in text for text in texts) and headless(figure)[:2] == (name, name)
    assert name in " ".join(ElementTree.fromstring(svg(figure, "described")).itertext())


def test_a_chart_can_leave_its_heading_to_the_page():
    figure = sheet(Panel([SLOPE]), title="Run", said="word " * 100)
    title, said, bare = headless(figure)
    assert (title, said.split()) == ("Run", ["word"] * 100) and bare.layout.title.text == "" == bare.layout.title.subtitle.text
    assert bare.layout.height < figure.layout.height and figure.layout.title.text == "Run"
    own = go.Figure(layout={"title": {"text": "a learner's own"}})
    assert headless(own) == ("", "", own)
