"""What every run promises, whoever made it."""

import numpy as np
import pandas as pd
import pytest

from kit.faults import Fault
from kit.records.run import Run, Source, fingerprint


def readings(seconds=(0, 2, 4), **columns):
    columns = columns or {"treated": 20.0, "control": 19.5}
    return pd.DataFrame(columns, index=pd.Index(np.array(seconds, float), name="elapsed_s"))


def run(table):
    return Run(table, "basalt", Source("basalt.csv", fingerprint(table)))


def test_difference_step_and_minutes():
    made = run(readings((0, 60, 120, 300)))
    assert made.difference().tolist() == [0.5] * 4 and made.difference().name == "difference"
    assert made.step_s == 60 and made.minutes.tolist() == [0, 1, 2, 5]


@pytest.mark.parametrize(
    ("table", "text"),
    [
        (
            readings(control=20.0),
            "There is no treated vessel in this record. Both are needed: only the control tells what would have happened anyway.",
        ),
        (readings(treated=1.0, control=1.0, pressure=1.0), "A run has no column 'pressure'. Its columns are treated, control, room, gas_ppm, light."),
        (readings((0,)), "This record holds 1 reading. At least two are needed."),
        (readings((0, 2, 2)), "The times of this record do not run forward. Sort them, and keep each time once."),
        (readings((0, 2, np.nan)), "The times of this record do not run forward. Sort them, and keep each time once."),
        (readings(treated=np.inf, control=1.0), "A reading is infinite. Mark it as missing, or take it out."),
    ],
)
def test_an_unfit_table_is_refused(table, text):
    with pytest.raises(Fault) as raised:
        run(table)
    assert str(raised.value) == text


def test_a_run_says_what_it_is():
    assert str(run(readings())) == "Run basalt (measured): 3 readings over 0.1 min, one every 2 s."
    noted = run(readings()).with_remark("Read <tab> as separator.")
    assert "Read &lt;tab&gt; as separator." in noted._repr_html_() and noted.remarks == ("Read <tab> as separator.",)


def test_the_fingerprint_follows_every_reading_and_name():
    base = fingerprint(readings())
    changed = [readings((0, 2, 5)), readings(treated=20.0, control=19.6), readings(treated=20.0, room=19.5)]
    assert fingerprint(readings()) == base and len({base, *map(fingerprint, changed)}) == 4


def test_its_table_names_the_unit_of_every_channel():
    table = run(readings(treated=[20.0, 21.5, 21.0], control=19.5, gas_ppm=[400.0, 9000.0, 10000.0]))._repr_html_()
    assert "20.00 to 21.50 °C" in table and "19.50 to 19.50 °C" in table and ">CO2<" in table and "400 to 10,000 ppm" in table
