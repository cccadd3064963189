"""What the marker draws of a run, and how it tells it to those who do not see it."""

import numpy as np

from kit.widgets.shared.run.picture import picture_of
from tests.widgets.invented import invented_run


def test_lines_arrive_as_the_run_holds_them():
    run = invented_run()
    traits = picture_of(run)
    times = np.frombuffer(traits["times"], "<f4")
    rows = np.frombuffer(traits["lines"], "<f4").reshape(4, -1)
    assert traits["picture"]["rows"] == ["treated", "control", "difference", "gas"]
    assert np.abs(times - run.readings.index).max() < 1e-3
    assert np.abs(rows[2] - run.difference()).max() < 1e-5


def test_a_run_without_gas_draws_none():
    assert picture_of(invented_run(gas=False))["picture"]["rows"] == ["treated", "control", "difference"]


def test_the_picture_in_words_names_the_ends_and_the_highest_reading():
    run = invented_run(readings=5, minutes=20, gas=False)
    run.readings["treated"], run.readings["control"] = [20.0, 25, 31, 30.5, 30], [20.0, 24, 29, 28.5, 29]
    assert picture_of(run)["picture"]["summary"] == (
        "Chart of the run basalt-like, 20.0 minutes long. Treated goes from 20.00 to 30.00 °C; it is highest, 31.00 °C, at minute 10.0. "
        "Control goes from 20.00 to 29.00 °C; it is highest, 29.00 °C, at minute 10.0. "
        "The difference, treated minus control, goes from 0.00 to 1.00 °C; it is highest, 2.00 °C, at minute 10.0."
    )


def test_the_table_has_about_one_row_a_minute_and_says_what_is_missing():
    run = invented_run()
    run.readings.loc[:30.0, "control"] = np.nan
    table = picture_of(run)["picture"]["table"]
    assert len(table) == 22 and table[0][0] == "0.0" and table[0][2:4] == ["missing", "missing"]
    there = [run.readings.loc[660.0, "treated"], run.readings.loc[660.0, "control"], run.difference()[660.0]]
    assert table[11] == ["11.0", *(f"{value:.2f}" for value in there), "420"]


def test_a_long_record_keeps_its_table_short():
    assert len(picture_of(invented_run(2000, 990))["picture"]["table"]) <= 41
