"""A run as a picture: what is drawn, told apart without colour, named at its end, and said in a sentence."""

import numpy as np
import pandas as pd
import pytest

from kit.bench.simulation import simulate_run
from kit.charts import chart
from kit.charts.runs.run import summary, thinned
from kit.faults import Fault
from kit.examples import example_run
from kit.records.run import Run, Source


def traces(figure):
    return {trace.name: trace for trace in figure.data}


def notes(figure):
    return {note.text: note for note in figure.layout.annotations}


def run_of(treated, control):
    seconds = pd.Index(10.0 * np.arange(len(treated)), name="elapsed_s")
    return Run(pd.DataFrame({"treated": treated, "control": control}, index=seconds), "made", Source("made", "0"))


def test_lines_differ_by_more_than_colour():
    drawn = traces(chart(example_run("basalt")))
    kinds = {name: (drawn[name].line.dash, drawn[name].marker.symbol) for name in ("treated", "control", "difference")}
    assert kinds == {"treated": ("solid", "circle"), "control": ("dash", "square"), "difference": ("dot", "diamond")}


def test_every_line_is_named_at_its_end_and_there_is_no_legend():
    run = example_run("basalt")
    figure = chart(run)
    named = notes(figure)
    assert {"treated", "control", "difference", "CO2"} <= set(named)
    assert (named["treated"].x, named["treated"].y) == (run.minutes[-1], run.readings["treated"].iloc[-1])
    assert figure.layout.template.layout.showlegend is False


def test_axes_have_units():
    figure = chart(example_run("basalt"))
    assert [axis.title.text for axis in figure.select_yaxes()] == ["°C", "°C", "ppm"]
    assert [axis.title.text for axis in figure.select_xaxes()][-1] == "time (min)"


def test_an_arrow_shows_when_the_gas_went_in_where_a_probe_recorded_it():
    arrow = notes(chart(example_run("basalt")))["gas in, 11 min 0 s"]
    assert (arrow.x, arrow.showarrow) == (11, True)
    assert not any("gas in" in text for text in notes(chart(example_run("flint-air"))))


def test_a_reading_lost_where_the_gas_went_in_leaves_the_arrow_on_the_line():
    run = example_run("basalt")
    readings = run.readings.copy()
    readings.loc[600:720, "treated"] = np.nan
    arrow = notes(chart(Run(readings, "made", Source("made", "0"))))["gas in, 11 min 0 s"]
    assert readings["treated"].loc[598] < arrow.y < readings["treated"].loc[722]


def test_the_room_is_drawn_where_it_was_recorded():
    assert "room" in traces(chart(example_run("reference")))
    assert "room" not in traces(chart(example_run("basalt")))


def test_the_sentence_tells_start_end_and_difference():
    run = run_of([21.0, np.nan, 24.26], [20.5, 22.0, 23.0])
    assert summary(run) == "First to last reading: treated 21.00 to 24.26 °C, control 20.50 to 23.00 °C; difference 0.50 to 1.26 °C."
    assert chart(run).layout.title.subtitle.text.replace("<br>", " ") == summary(run)


def test_a_missing_reading_is_a_gap_and_a_lost_thermometer_no_reason_to_fail():
    assert np.isnan(traces(chart(run_of([21.0, np.nan, 24.0], [20.0, 21.0, 22.0])))["treated"].y[1])
    assert "treated unknown to unknown °C" in summary(run_of([np.nan, np.nan], [20.0, 21.0]))
    assert "treated" not in notes(chart(run_of([np.nan, np.nan], [20.0, 21.0])))


def test_names_that_would_touch_are_moved_apart():
    near = notes(chart(run_of([20.0, 25.0], [20.0, 24.99])))
    far = notes(chart(run_of([20.0, 25.0], [20.0, 22.0])))
    assert near["treated"].yshift - near["control"].yshift >= 14
    assert far["treated"].yshift == far["control"].yshift == 0


def test_a_long_record_is_thinned_and_keeps_its_spikes_and_gaps():
    minutes = np.arange(100_000) / 60
    values = np.zeros(100_000)
    values[[50_000, 70_000]] = 6, np.nan
    x, y = thinned(minutes, values)
    assert len(x) <= 3002
    assert (np.diff(x) > 0).all() and (x[0], x[-1]) == (minutes[0], minutes[-1])
    assert np.nanmax(y) == 6 and np.isnan(y).sum() == 1


def test_a_short_record_is_drawn_reading_by_reading():
    run = simulate_run()
    assert len(traces(chart(run))["treated"].x) == len(run.readings)


def test_what_has_no_chart_is_named():
    with pytest.raises(Fault) as caught:
        chart("a text")
    assert str(caught.value).startswith("There is no chart for str. Charts exist for: Run, ClassRuns, Effect, ")
