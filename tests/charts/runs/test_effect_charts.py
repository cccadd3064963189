"""Charts of an effect, of the two ranges and of a stretch: words from the result, the uncertainty drawn, axes with units, labels and no legend."""

import re
from dataclasses import replace

import numpy as np
import pytest

from kit import Windows, chart, check_steady, example_run, naive_effect, paired_effect

WINDOWS = Windows.of_perturbation(11)


@pytest.fixture(scope="module")
def results():
    basalt, flint = example_run("basalt"), example_run("flint-air")
    return {
        "warmer": paired_effect(basalt, WINDOWS),
        "cannot tell": paired_effect(flint, WINDOWS),
        "naive": naive_effect(basalt, WINDOWS),
        "steady": check_steady(basalt, over_min=5, tolerance_c_per_min=0.02, until_min=11),
        "drifting": check_steady(example_run("chert-early"), over_min=4, tolerance_c_per_min=0.01, until_min=4),
        "too short": check_steady(basalt, over_min=30, tolerance_c_per_min=0.01),
    }


def words(figure):
    """What its labels say, name and words of a row each for itself."""
    return [part.strip() for note in figure.layout.annotations for part in re.split("</?b>", note.text) if part]


def plain(text):
    return text.replace("<br>", " ")


@pytest.mark.parametrize("name", ["warmer", "cannot tell", "naive", "steady", "drifting", "too short"])
def test_the_title_is_the_results_own_sentence_and_nothing_needs_a_legend(results, name):
    figure = chart(results[name])
    assert plain(figure.layout.title.text) == str(results[name])
    assert figure.layout.template.layout.showlegend is False
    axes = [axis.title.text for axis in figure.select_xaxes() if axis.title.text]
    assert axes and all("(" in title for title in axes)


def test_the_range_is_drawn_against_zero_with_its_digits(results):
    effect = results["warmer"]
    figure = chart(effect)
    dot = figure.data[0]
    assert (dot.x[0], dot.error_x.array[0], dot.error_x.arrayminus[0]) == pytest.approx(
        (effect.warming.value, effect.warming.high - effect.warming.value, effect.warming.value - effect.warming.low)
    )
    assert effect.warming.range in words(figure) and "no change" in words(figure)
    assert any(shape.x0 == shape.x1 == 0 for shape in figure.layout.shapes)


def test_the_budget_stands_below_largest_first(results):
    effect = results["warmer"]
    bars = chart(effect).data[1]
    assert list(bars.y) == [line.name for line in effect.budget] and list(bars.x) == [line.size_c for line in effect.budget]
    assert plain(chart(effect).layout.title.subtitle.text) == f"{effect.reason} {effect.condition}"


def test_a_result_without_a_number_shows_its_reason():
    run = example_run("basalt")
    stuck = paired_effect(replace(run, readings=run.readings.assign(control=21.0)), WINDOWS)
    figure = chart(stuck)
    assert plain(figure.layout.title.text) == str(stuck) and not figure.data


def test_both_ranges_of_one_effect_are_drawn_and_named(results):
    naive = results["naive"]
    figure = chart(naive)
    ranges = [naive.honest.warming, naive.warming]
    assert [trace.error_x.array[0] for trace in figure.data] == pytest.approx([each.high - each.value for each in ranges])
    assert [trace.error_x.arrayminus[0] for trace in figure.data] == pytest.approx([each.value - each.low for each in ranges])
    assert {naive.honest.warming.range, naive.warming.range} <= set(words(figure))


def test_a_stretch_shows_its_readings_its_line_and_the_tolerance(results):
    steady = results["steady"]
    readings, line, drift = chart(steady).data
    assert (readings.x[0], readings.x[-1]) == (6, 11) and len(readings.x) == 151
    assert np.diff(line.y)[0] / np.diff(line.x)[0] == pytest.approx(steady.slope.value)
    assert (drift.error_x.array[0], drift.error_x.arrayminus[0]) == pytest.approx((steady.decides.half_width,) * 2)
    assert "steady: within ±0.02" in words(chart(steady))
    assert any((shape.x0, shape.x1) == (-0.02, 0.02) for shape in chart(steady).layout.shapes)
