"""Writing a run out, and opening it again with the same numbers to the last bit."""

import io
import math
import os

import frictionless
import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.faults import Fault
from kit.intake.read import read_run
from kit.records.run import Run, Source
from kit.records.saving import csv_text
from kit.intake.given.source import Raw

NAN = math.nan


def run_of(times, name="basalt", remarks=(), kind="measured", gain=0.0, **columns):
    table = pd.DataFrame(columns, index=pd.Index(times, name="elapsed_s", dtype=float))
    return Run(table, name, Source("a.csv", "0" * 64), tuple(remarks), kind, gain)


RUN = run_of([0, 2, 4.5], treated=[21.4, NAN, 21.6], control=[21.3, -0.5, 1 / 3], gas_ppm=[400, 401, 1e6])


def reopened(run):
    return read_run(Raw("saved.csv", csv_text(run).encode()))


def test_the_file_is_plain_csv_with_units_in_the_header(tmp_path):
    path = RUN.save(tmp_path / "out" / "saved.csv")
    assert path.read_text(encoding="utf-8") == (
        "elapsed_s,treated_degC,control_degC,gas_ppm,note\n"
        "0,21.4,21.3,400,Twin Vessels run | name: basalt | kind: measured | gain uncertainty: 0.0\n"
        "2,,-0.5,401,\n"
        "4.5,21.6,0.3333333333333333,1000000,\n"
    )


readings = st.one_of(st.just(NAN), st.floats(-273.15, 1e6))


@settings(max_examples=150, deadline=None)
@given(
    st.lists(st.floats(1e-3, 1e4), min_size=2, max_size=40).map(lambda steps: np.r_[0.0, np.cumsum(steps[1:])]),
    st.sampled_from([("treated", "control"), ("treated", "control", "room", "gas_ppm", "light")]),
    st.data(),
)
def test_opening_it_again_gives_the_same_numbers_to_the_last_bit(times, names, data):
    columns = {name: [21.5, 21.0, *data.draw(st.lists(readings, min_size=len(times) - 2, max_size=len(times) - 2))] for name in names}
    run = run_of(times, **columns)
    again = reopened(run)
    assert again.readings.index.to_numpy().tobytes() == run.readings.index.to_numpy().tobytes()
    assert list(again.readings) == list(run.readings)
    for name in names:
        one, two = run.readings[name].to_numpy(), again.readings[name].to_numpy()
        assert (np.isnan(one) == np.isnan(two)).all() and one[~np.isnan(one)].tobytes() == two[~np.isnan(two)].tobytes()


def test_name_kind_and_remarks_come_back():
    run = run_of([0, 2], "my run", ["Took 'A', as treated.", 'Said "so" | by hand.'], "simulated", 0.0125, treated=[1, 2], control=[1, 2])
    again = reopened(run)
    assert (again.name, again.kind, again.gain_uncertainty) == ("my run", "simulated", 0.0125)
    assert again.remarks[1:3] == ("Took 'A', as treated.", 'Said "so" / by hand.')


def test_saving_what_was_saved_changes_nothing_but_adds_no_remark_twice():
    once = reopened(RUN)
    twice = reopened(once)
    assert twice.remarks[: len(once.remarks)] != () and len(reopened(twice).remarks) == len(twice.remarks)
    assert twice.readings.equals(once.readings)


@pytest.mark.parametrize("start", "=+-@")
@pytest.mark.parametrize("before", ["", ";", ",", "\t", "| ", "'", '"'])
def test_no_cell_is_a_formula_to_a_spreadsheet(start, before):
    """The signs that begin a formula: OWASP, CSV Injection. Also behind a mark at which a spreadsheet may split the cell."""
    run = run_of([0, 2], f"{start}HYPERLINK(1)", [f"Note in line 3: {before}{start}1+1|cmd"], treated=[-1, 2], control=[1, 2])
    for separator in ",;\t":
        rows = pd.read_csv(
            io.StringIO(csv_text(run)), sep=separator, header=None, dtype=str, names=range(30), on_bad_lines="skip", quoting=3
        )
        cells = [
            cell.strip(" \"'") if cell.strip().startswith('"') else cell.strip()
            for cell in rows.to_numpy().ravel()
            if isinstance(cell, str)
        ]
        formulas = [cell for cell in cells if cell.startswith(tuple("=+-@")) and not cell.lstrip("-").replace(".", "").isdigit()]
        assert not formulas
    assert reopened(run).readings.treated.tolist() == [-1, 2]


def test_frictionless_reads_the_same_table(tmp_path):
    """The reference reader of the Data Package standard (Table Schema, CSV dialect) finds a valid table with the same numbers."""
    RUN.save(tmp_path / "saved.csv")
    with frictionless.system.use_context(trusted=True):
        resource = frictionless.Resource(path=str(tmp_path / "saved.csv"))
        assert resource.validate().valid
        rows = resource.read_rows()
    assert [float(row["control_degC"]) for row in rows] == RUN.readings.control.tolist()
    assert [row["treated_degC"] for row in rows][1] is None


def test_nothing_is_ever_overwritten(tmp_path):
    path = tmp_path / "saved.csv"
    RUN.save(path)
    RUN.save(path)
    with pytest.raises(Fault) as fault:
        run_of([0, 2], treated=[1, 2], control=[1, 2]).save(path)
    assert str(fault.value) == "saved.csv exists already and holds something else. Choose another name; nothing is ever overwritten."
    assert read_run(path).readings.equals(RUN.readings)


def test_a_folder_is_no_file_name(tmp_path):
    with pytest.raises(Fault) as fault:
        RUN.save(tmp_path)
    assert str(fault.value) == f"{tmp_path.name} is a folder. Add a file name: run.save('{tmp_path.name}/basalt.csv')."


def test_a_folder_that_can_not_be_written(tmp_path, monkeypatch):
    monkeypatch.setattr(os, "replace", lambda *_: (_ for _ in ()).throw(PermissionError(13, "denied")))
    with pytest.raises(Fault) as fault:
        RUN.save(tmp_path / "saved.csv")
    assert str(fault.value) == "saved.csv can't be written here. Choose another folder, such as your own."
