"""Still pictures: the same marks at the same places as the figure has them, in an SVG that any program can read."""

import re
from xml.etree import ElementTree

import pytest

from kit import (
    Windows, calibrate, chart, check_steady, class_effect, compare, example_class, example_run, fit_warming, gas_dose, paired_effect,
    plan_run, possible_causes, reference_run,
)  # fmt: skip
from kit.analysis.planet.co2record import co2_record
from kit.analysis.planet.planet import planet_balance
from kit.analysis.planet.spectra import radiation_curves
from kit.charts.drawing.sheet import Panel, dots, line, remark, sheet
from kit.charts.still import svg
from kit.charts.still.axes import axes_of
from kit.charts.drawing.style import TREATED

MARKS = Windows.of_perturbation(11)
SVG = "{http://www.w3.org/2000/svg}"


def basalt():
    return paired_effect(example_run("basalt"), MARKS)


THINGS = {
    "run": lambda: example_run("basalt"),
    "effect": basalt,
    "curve": lambda: fit_warming(example_run("basalt"), MARKS),
    "comparison": lambda: compare(basalt(), paired_effect(reference_run(), MARKS), margin=0.3),
    "class": lambda: class_effect(example_class()),
    "class runs": example_class,
    "steadiness": lambda: check_steady(example_run("basalt"), over_min=5, tolerance_c_per_min=0.01),
    "plan": plan_run,
    "dose": lambda: gas_dose(tablets=4),
    "causes": lambda: possible_causes(basalt()),
    "spectra": radiation_curves,
    "record": co2_record,
    "balance": planet_balance,
    "calibration": lambda: calibrate({"ice": {"treated": 0.2, "control": -0.1}, "boiling": {"treated": 99.6, "control": 99.9}}, altitude_m=200),
}


@pytest.mark.parametrize("name", sorted(THINGS))
def test_every_chart_can_stand_still(name):
    drawn = chart(THINGS[name]())
    page = ElementTree.fromstring(svg(drawn, "a description"))
    assert page.find(f"{SVG}title").text and page.find(f"{SVG}desc").text == "a description"
    numbers = [value for each in page.iter() for key, value in each.attrib.items() if key in ("x", "y", "x1", "y1", "cx", "cy", "points")]
    assert numbers and not any("nan" in value or "inf" in value for value in numbers)
    written = " ".join(each.text or "" for each in page.iter(f"{SVG}text"))
    for label in drawn.layout.annotations:
        assert re.sub("</?b>", "", label.text).split("<br>")[0] in written


def drawn(*traces, title="A line", right=24, **panel):
    return sheet(Panel([*traces], **{"x": "time (min)", "y": "°C", **panel}), title=title, right=right)


SLOPE = line([0, 10], [0, 5], TREATED)
ENDS = {"xaxis": {"range": [0, 10]}, "yaxis": {"range": [0, 5]}}


def test_ends_of_a_line_lie_where_the_axes_say():
    page = ElementTree.fromstring(svg(drawn(SLOPE, **ENDS)))
    (polyline,) = page.iter(f"{SVG}polyline")
    (x0, y0), (x1, y1) = (tuple(map(float, pair.split(","))) for pair in polyline.get("points").split())
    axis = axes_of(drawn(SLOPE, **ENDS), x0, x1, y1, y0)
    assert axis["x"].at(5) == pytest.approx((x0 + x1) / 2) and axis["y"].at(2.5) == pytest.approx((y0 + y1) / 2)


def test_a_line_breaks_where_a_reading_is_missing():
    broken = drawn(line([0, 1, 2, 3, 4], [1, 1, None, 1, 1], TREATED))
    assert len(list(ElementTree.fromstring(svg(broken)).iter(f"{SVG}polyline"))) == 2


def test_a_lopsided_bar_reaches_as_far_as_it_says_on_either_side():
    bar = {"type": "data", "symmetric": False, "array": [3.0], "arrayminus": [1.0]}
    page = ElementTree.fromstring(svg(drawn(dots([5.0], [0.0], TREATED, error_x=bar), xaxis={"range": [0, 10]})))
    spot = next(page.iter(f"{SVG}circle"))
    flat = [each for each in page.iter(f"{SVG}line") if each.get("y1") == each.get("y2") == spot.get("cy")]
    reach = max(flat, key=lambda each: float(each.get("stroke-width")))
    left, middle, right = float(reach.get("x1")), float(spot.get("cx")), float(reach.get("x2"))
    assert (right - middle) / (middle - left) == pytest.approx(3, abs=0.02)


def test_markup_in_a_name_is_text_in_the_picture():
    page = svg(drawn(SLOPE, title="<script>alert(1)</script> & co"))
    assert "<script" not in page and ElementTree.fromstring(page) is not None


def test_every_word_stays_within_the_picture():
    page = svg(drawn(SLOPE, right=10, notes=[remark("a long label at the end", 10, 5, TREATED)]))
    label = next(each for each in ElementTree.fromstring(page).iter(f"{SVG}text") if each.text == "a long label at the end")
    assert float(label.get("x")) + 7 * len(label.text) <= 760


def texts(picture):
    return {element.text: float(element.get("y")) for element in ElementTree.fromstring(picture).iter(f"{SVG}text")}


def test_two_lines_over_a_row_both_stand_above_it():
    figure = sheet(Panel([line([0, 1], [0, 1], TREATED)], notes=[remark("first<br>second", 0, 0.5, TREATED, yanchor="bottom")]), title="rows")
    found = texts(svg(figure))
    single = texts(svg(sheet(Panel([line([0, 1], [0, 1], TREATED)], notes=[remark("second", 0, 0.5, TREATED, yanchor="bottom")]), title="rows")))
    assert found["second"] == single["second"] and found["first"] == found["second"] - 15


def test_a_picture_without_its_heading_keeps_it_as_its_title():
    figure = chart(example_run("basalt"))
    headed, bare = svg(figure), svg(chart(example_run("basalt")), headed=False)
    title = ElementTree.fromstring(bare).find(f"{SVG}title").text
    assert title == ElementTree.fromstring(headed).find(f"{SVG}title").text and title in texts(headed) and title not in texts(bare)


def test_many_points_become_one_path_and_a_long_line_keeps_its_ends_and_its_spike():
    seconds = list(range(20_000))
    values = [100.0 if second == 7_777 else second % 2 for second in seconds]
    picture = svg(sheet(Panel([line(seconds, values, TREATED), dots(seconds[:400], values[:400], TREATED)]), title="many"))
    root = ElementTree.fromstring(picture)
    points = [tuple(map(float, pair.split(","))) for pair in root.find(f".//{SVG}polyline").get("points").split()]
    whole = [pair for pair in points if pair[1] == min(each[1] for each in points)]
    assert len(points) < 2_000 and len(whole) == 1 and root.find(f".//{SVG}path").get("d").count("M") == 400
