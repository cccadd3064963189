"""°F everywhere: what is said and drawn is turned, what is computed and kept is not. 1 °C of difference is 1.8 °F, 0 °C is 32 °F (NIST SP 811, B.8)."""

import re
from math import isclose

import numpy as np
import pytest

from kit import chart, Estimate, example_run
from kit.charts import DRAWN_IN
from kit.estimate import Range
from kit.settings import NAME
from tests.analysis.test_promise import RESULTS

NUMBER = r"[−-]?\d[\d.,]*\d|[−-]?\d"
VALUE = re.compile(rf"({NUMBER})(?: ?°([CF]))")
THINGS = RESULTS | {"run": lambda: example_run("basalt")}


@pytest.fixture
def fahrenheit(tmp_path, monkeypatch):
    """From here on the class reads °F."""

    def switch():
        (tmp_path / NAME).write_text('[show]\ntemperature = "°F"\n', encoding="utf-8")

    monkeypatch.chdir(tmp_path)
    return switch


def texts(thing):
    return "\n".join([str(thing), str(thing.explain()), re.sub("<[^>]*>", "\n", thing._repr_html_())])


def turned(c, f):
    """Are two numbers as they were written the same difference, or the same reading, to their last digits?"""
    told_c, told_f = (float(each.replace("−", "-").replace(",", "")) for each in (c, f))
    last = sum(10.0 ** -len(each.partition(".")[2]) for each in (c, c, f)) / 2
    return any(isclose(1.8 * told_c + zero, told_f, abs_tol=1.01 * last + 0.02 * abs(told_f)) for zero in (0, 32))


def skeleton(text):
    """The text without its numbers and units."""
    return re.sub("°[CF]", "", re.sub(NUMBER, "0", text))


@pytest.mark.parametrize("name", sorted(RESULTS))
def test_every_result_speaks_of_the_same_warmth(name, fahrenheit):
    before = texts(RESULTS[name]())
    fahrenheit()
    after = texts(RESULTS[name]())
    assert "°C" not in after
    with_unit = [VALUE.findall(text) for text in (before, after)]
    assert [pair for pair in zip(*with_unit, strict=True) if not turned(pair[0][0], pair[1][0])] == []
    numbers = [re.findall(NUMBER, text) for text in (before, after)]
    assert [pair for pair in zip(*numbers, strict=True) if pair[0] != pair[1] and not turned(*pair)] == []
    assert skeleton(before) == skeleton(after)


def along(figure):
    """{axis: (title, all values along it)} of a figure, those of error bars, marks and labels among them."""
    found = {}
    for trace in figure.data:
        for letter in "xy":
            axis = f"{letter}axis{(trace[f'{letter}axis'] or letter)[1:]}"
            found.setdefault(axis, []).extend(each for each in trace[letter] if isinstance(each, (int, float)))
    for thing in (*figure.layout.shapes, *figure.layout.annotations):
        for letter, names in (("x", ("x", "x0", "x1")), ("y", ("y", "y0", "y1"))):
            axis = thing[f"{letter}ref"] or letter
            values = [thing[name] for name in names if name in thing and isinstance(thing[name], (int, float))]
            if "domain" not in axis and axis != "paper":
                found.setdefault(f"{letter}axis{axis[1:]}", []).extend(values)
    return {axis: (figure.layout[axis].title.text or "", np.array(values, float)) for axis, values in found.items()}


@pytest.mark.parametrize("name", sorted(name for name, make in THINGS.items() if type(make()).__name__ in DRAWN_IN))
def test_every_chart_is_drawn_in_the_class_s_unit(name, fahrenheit):
    before = along(chart(THINGS[name]()))
    fahrenheit()
    figure = chart(THINGS[name]())
    assert "°C" not in figure.to_json() and "\\u00b0C" not in figure.to_json()
    turned_axes = 0
    for axis, (title, values) in along(figure).items():
        was, old = before[axis]
        if "°C" in was:
            turned_axes += 1
            assert "°F" in title and (np.allclose(values, 1.8 * old, equal_nan=True) or np.allclose(values, 1.8 * old + 32, equal_nan=True))
        else:
            assert title == was and np.allclose(values, old, equal_nan=True)
    assert turned_axes == sum("°C" in title for title, _ in before.values())


def test_readings_move_their_zero_and_differences_do_not(fahrenheit):
    run = example_run("basalt")
    boils, warmer = Estimate(100.0, 0.1, 99.8, 100.2, on_scale=True), Estimate(1.5, 0.1, 1.3, 1.7)
    kept = [np.array(trace.y) for trace in chart(run).data[:3]]
    fahrenheit()
    assert (boils.range, warmer.range) == ("211.6 to 212.4 °F", "2.3 to 3.1 °F")
    assert (str(Range(0, 100, "°C", on_scale=True)), str(Range(0, 100, "°C")), str(Range(1, 2, "min"))) == ("32 to 212 °F", "0 to 180 °F", "1.0 to 2.0 min")
    assert (warmer.value, warmer.unit, warmer.shown.value, warmer.shown.unit) == (1.5, "°C", pytest.approx(2.7), "°F")
    treated, control, gap = (np.array(trace.y) for trace in chart(run).data[:3])
    assert np.allclose(treated, 1.8 * kept[0] + 32) and np.allclose(control, 1.8 * kept[1] + 32) and np.allclose(gap, 1.8 * kept[2])


@pytest.mark.parametrize("name", ["effect", "curve", "class", "calibration"])
def test_what_is_kept_stays_in_c(name, fahrenheit):
    before = THINGS[name]().to_dict()
    fahrenheit()
    after = THINGS[name]().to_dict()
    assert numbers(after) == numbers(before)


def numbers(kept):
    """All numbers of a dict as JSON has it, in order."""
    if isinstance(kept, dict):
        return [each for value in kept.values() for each in numbers(value)]
    if isinstance(kept, list):
        return [each for value in kept for each in numbers(value)]
    return [kept] if isinstance(kept, (int, float)) else []
