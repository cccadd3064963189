"""Charts of curve, class, comparison, calibration and plan.

Words come from the result, uncertainty is drawn, axes have units, labels stand for a legend.
"""

import re
from dataclasses import replace

import numpy as np
import pytest

from kit import Windows, calibrate, chart, class_effect, compare, example_class, example_run, fit_warming, paired_effect, plan_run
from kit.estimate import Parts
from kit.statistics import ranged
from kit.statistics.rehearsal import Wander

WINDOWS = Windows.of_perturbation(11)
POINTS = {"ice": {"treated": 0.3, "control": -0.1}, "boiling": {"treated": 98.2, "control": 97.4}}


@pytest.fixture(scope="module")
def results():
    basalt, other = example_run("basalt"), example_run("marble-argon")
    class_ = class_effect(example_class())
    effect = paired_effect(basalt, WINDOWS)
    return {
        "curve": fit_warming(basalt, WINDOWS),
        "open curve": fit_warming(example_run("flint-air"), WINDOWS),
        "no curve": fit_warming(replace(basalt, readings=basalt.readings.assign(control=21.0)), WINDOWS),
        "class": class_,
        "two groups": class_effect([basalt, other], WINDOWS),
        "comparison": compare(effect, paired_effect(other, WINDOWS), margin=0.5),
        "class comparison": compare(class_, effect, margin=0.5),
        "calibration": calibrate(POINTS, altitude_m=500),
        "plan": plan_run(half_width_c=0.05, wander=Wander(correlation_s=10.0)),
    }


NAMES = ["curve", "open curve", "no curve", "class", "two groups", "comparison", "class comparison", "calibration", "plan"]


def words(figure):
    """What its labels say, name and words of a row each for itself."""
    return [part.strip() for note in figure.layout.annotations for part in re.split("</?b>", note.text) if part]


def plain(text):
    return text.replace("<br>", " ")


@pytest.mark.parametrize("name", NAMES)
def test_the_title_is_the_results_own_sentence_and_nothing_needs_a_legend(results, name):
    figure = chart(results[name])
    assert plain(figure.layout.title.text) == str(results[name])
    assert figure.layout.template.layout.showlegend is False
    axes = [axis.title.text for axis in (*figure.select_xaxes(), *figure.select_yaxes()) if axis.title.text]
    assert axes and all("(" in title or title in ("°C", "number of runs", "% of such plans") for title in axes)


@pytest.mark.parametrize("name", NAMES)
def test_it_can_be_drawn_by_plotly(results, name):
    assert chart(results[name]).to_json()


def test_a_curve_is_drawn_within_its_band_and_its_residuals_below(results):
    curve = results["curve"]
    readings, band, level, drawn, beyond, time, left = chart(curve).data
    assert len(readings.x) == len(left.x) == len(curve.residuals)
    assert left.y == pytest.approx(curve.residuals.to_numpy())
    high, low = np.split(np.array(band.y), 2)
    assert (high > level.y).all() and (low[::-1] < level.y).all()
    minute = level.x[100]
    assert high[100] - low[::-1][100] == pytest.approx(2 * curve.at(minute).half_width)
    assert level.x[-1] <= 21.5 <= beyond.x[0] < beyond.x[-1] and (drawn.line.dash, beyond.line.dash) == ("dash", "dot")
    assert time.x[0] == pytest.approx(11 + curve.time_to_63.value) and time.error_x.array[0] > 0 < time.error_x.arrayminus[0]
    assert {"one rise, drawn", "baseline", "readings", "readings minus drawn rise"} <= set(words(chart(curve)))
    assert plain(chart(curve).layout.title.subtitle.text) == curve.diagnosis


def test_a_time_that_is_not_determined_is_not_drawn(results):
    curve = results["open curve"]
    assert not curve.determined and "63 %" not in [trace.name for trace in chart(curve).data]


def test_without_a_curve_the_readings_stand_alone(results):
    assert len(chart(results["no curve"]).data) == 1


def test_the_class_board_has_a_row_for_each_group_and_each_mean(results):
    effect = results["class"]
    rows = {trace.y[0]: trace for trace in chart(effect).data}
    assert [name for name in rows][:8] == [f"{s.name} (look again)" if s.suspect else s.name for s in effect.shares]
    assert list(rows)[8:] == ["class mean", "without Slate", "plain mean, by hand", "one more group"]
    mean = rows["class mean"]
    assert (mean.x[0], mean.error_x.array[0]) == pytest.approx((effect.mean.value, effect.mean.high - effect.mean.value))
    assert rows["one more group"].error_x.array[0] > mean.error_x.array[0]
    assert effect.mean.text in words(chart(effect)) and f"{effect.next_group.range} (95 %)" in words(chart(effect))


def test_a_class_of_thousands_is_drawn_as_how_many_found_what(tmp_path, monkeypatch):
    rng = np.random.default_rng(5)
    values = [*rng.normal(1.5, 0.1, 2999), 9.0]
    effect = class_effect({f"g{place}": ranged(value, Parts(0.05)) for place, value in enumerate(values)})
    figure = chart(effect)
    crowd, *means = figure.data
    assert [trace.y[0] for trace in means] == ["class mean", "without g2999", "plain mean, by hand", "one more group"]
    assert sum(crowd.y[1:-1:2]) == 2999 - sum(not crowd.x[0] <= value <= crowd.x[-1] for value in values[:-1])
    assert crowd.x[0] < 1.3 and crowd.x[-1] < 2 and len(figure.to_json()) < 60_000
    hidden = [value for value in values if not crowd.x[0] <= value <= crowd.x[-1]]
    assert figure.layout.meta["said"].startswith(f"{len(hidden)} group") and figure.layout.meta["said"].endswith("9.00 °C.")
    monkeypatch.chdir(tmp_path)
    (tmp_path / "class-settings.toml").write_text('[show]\ntemperature = "°F"\n', encoding="utf-8")
    turned = chart(effect)
    assert np.allclose(turned.data[0].x, 1.8 * crowd.x) and np.allclose(turned.layout.xaxis.range, np.multiply(1.8, figure.layout.xaxis.range))
    assert turned.layout.xaxis2.title.text == "extra warming (°F)" and turned.layout.meta["said"].endswith("16.20 °F.")


def test_a_mean_without_a_range_gets_no_bar(results):
    rows = {trace.y[0]: trace for trace in chart(results["two groups"]).data}
    assert rows["class mean"].error_x.array is None


def test_the_margin_is_drawn_around_the_gap_and_around_the_tested_range(results):
    found = results["comparison"]
    figure = chart(found)
    bands = [(shape.y0, shape.y1) for shape in figure.layout.shapes] + [(shape.x0, shape.x1) for shape in figure.layout.shapes]
    assert bands.count((-0.5, 0.5)) == 2
    tested = figure.data[-1]
    reaches = found.tested.high - found.tested.value, found.tested.value - found.tested.low
    assert (tested.x[0], tested.error_x.array[0], tested.error_x.arrayminus[0]) == pytest.approx((found.tested.value, *reaches))
    assert {"mine", "reference", "gap", "tested range", "95 % range"} <= set(words(figure))


def test_a_class_beside_an_effect_is_drawn_by_its_ranges_alone(results):
    assert len(chart(results["class comparison"]).data) == 2


def test_a_calibration_has_a_line_a_band_and_points_for_each_thermometer(results):
    found = results["calibration"]
    figure = chart(found)
    assert [trace.name for trace in figure.data] == [None, "treated", "treated, read", None, "control", "control, read"]
    band, line = figure.data[0], figure.data[1]
    assert band.y[0] - line.y[0] == pytest.approx(found.correction("treated", line.x[0]).half_width)
    assert {"treated", "control", "bands: 95 %"} <= set(words(figure))


def test_a_plan_shows_width_against_runs_and_chance_against_warming(results):
    plan = results["plan"]
    *widths, chance = chart(plan).data
    swapped = next(trace for trace in widths if trace.name == "ten, half swapped")
    assert swapped.y[list(swapped.x).index(plan.runs)] == pytest.approx(plan.chosen.half_width_c)
    assert (np.diff(chance.y) >= 0).all() and chance.y[-1] > 99
    assert "wanted" in words(chart(plan))


def test_the_runs_of_a_class_share_one_scale():
    runs = example_class()
    figure = chart(runs)
    assert [trace.name for trace in figure.data] == [run.name for run in runs]
    assert sum(axis.matches is not None for axis in figure.select_yaxes()) >= len(runs) - 1
