"""From a file to a run, whole: the sample files, the six loggers of one run, what passes between the stages, and notes."""

from pathlib import Path

import numpy as np
import pytest

from kit.faults import IntakeFault
from kit.intake.given.table import Asked
from kit.intake.read import look, read_run, steps, taken
from kit.intake.given.source import Raw

FILES = Path(__file__).parents[1] / "files"
SIX = Path(__file__).parents[2] / "datasets" / "six-loggers"
COMMAS = "Cells are parted by commas; the readings begin in line 2, with a point (21.4) as decimal mark."
PLAIN = ("Took column 'Treated (°C)' as treated, in °C.", "Took column 'Control (°C)' as control, in °C.")
SAMPLES = {
    "semicolon-preamble-latin1.csv": (
        {},
        [0, 30, 60, 90, 120],
        {
            "treated": [21.42, 21.44, 21.47, 21.51, 21.52],
            "control": [21.40, 21.41, None, None, 21.43],
            "gas_ppm": [1204, 1198, 1201, 1203, 998],
        },
        (
            "The text is not UTF-8: read it as Windows-1252.",
            "Cells are parted by semicolons; the readings begin in line 7, with a comma (21,4) as decimal mark.",
            "Left out 1 line without readings: line 9 '# lamp touched'.",
            "Left out 1 line with a summary, not readings: line 13 'Mittelwert 21,47 21,41 1.161'.",
            "Times are minutes, in column 'Zeit'.",
            "Took column 'behandelt' as treated, in °C.",
            "Took column 'Kontrolle' as control, in °C.",
            "'Kontrolle': 1 cell like 'Err', first in line 11, counted as missing.",
            "Took column 'CO2' as gas, in ppm.",
            "'CO2': 4 numbers with a mark between thousands, first '1.204' in line 7.",
            "control: 2 of 5 readings are missing.",
        ),
    ),
    "tab-utf16-12-hour.txt": (
        {},
        [0, 2, 4, 6],
        {"treated": [21.4, 21.4, 21.5, 21.6], "control": [21.3, 21.4, 21.4, 21.4]},
        (
            "Read the text as UTF-16.",
            "Cells are parted by tabs; the readings begin in line 2, with a point (21.4) as decimal mark.",
            "Times come from column 'Clock', the first is '11:59:56 AM'.",
            "Took column 'Treated vessel (deg C)' as treated, in °C.",
            "Took column 'Control vessel (deg C)' as control, in °C.",
        ),
    ),
    "pipes-markdown.md": (
        {},
        [0, 10, 20],
        {"treated": [21.4, 21.5, 21.7], "control": [21.5, 21.5, None]},
        (
            "Cells are parted by bars; the readings begin in line 3, with a point (21.4) as decimal mark.",
            "Times are seconds, in column 'time (s)'.",
            "Took column 'treated / °C' as treated, in °C.",
            "Took column 'control / °C' as control, in °C.",
            "control: 1 of 3 readings is missing.",
        ),
    ),
    "fixed-width.txt": (
        {},
        [0, 2, 4, 6],
        {"treated": [21.40, 21.41, 21.42, 21.43], "control": [21.50, None, 21.51, 21.52], "gas_ppm": [400, 401, None, 405]},
        (
            "Cells are parted by blanks, in columns of fixed width; the readings begin in line 4, with a point (21.4) as decimal mark.",
            "Times come from column 'Time', the first is '0:00:00'.",
            "Took column 'Treated' as treated, in °C.",
            "Took column 'Control' as control, in °C.",
            "Took column 'CO2' as gas, in ppm.",
            "control: 1 of 4 readings is missing.",
            "gas_ppm: 1 of 4 readings is missing.",
        ),
    ),
    "pasted-blanks.txt": (
        {},
        [0, 2, 4],
        {"treated": [21.40, 21.41, 21.45], "control": [21.50, 21.50, 21.51]},
        (
            "Cells are parted by blanks; the readings begin in line 2, with a point (21.4) as decimal mark.",
            "The last line has no line end: look whether it is whole.",
            "Times are seconds, in column 'time_s'.",
            "Took column 'treated_K' as treated, turned from K into °C.",
            "Took column 'control_K' as control, turned from K into °C.",
        ),
    ),
    "long-layout.csv": (
        {},
        [0, 2, 4],
        {"treated": [21.4, 21.5, 21.7], "control": [21.3, 21.3, 21.4], "gas_ppm": [400, 500, 12000]},
        (
            COMMAS,
            "Column 'probe' names the probe of each row.",
            "Times are seconds, in column 'time (s)'.",
            "Joined on the 3 times of 'treated', over the 4 s that all cover.",
            "Took column 'treated' as treated, in °C.",
            "Took column 'control' as control, in °C.",
            "Took column 'CO2' as gas, turned from % into ppm.",
        ),
    ),
    "serial-days.csv": (
        {},
        [0, 2, 4, 6],
        {"treated": [21.4, 21.5, 21.6, 21.8], "control": [21.5, 21.5, 21.5, 21.6]},
        (COMMAS, "Times in column 'Time' are a spreadsheet's days since 1899, read to the millisecond.", *PLAIN),
    ),
    "hand-table.csv": (
        {},
        [0, 60, 120, 180],
        {"treated": [21.3889, 22.2222, 22.7778, 23.3333], "control": [21.1111, 21.9444, 22.5, 22.7778]},
        (
            COMMAS,
            "Note in line 2: 'lamp on'.",
            "Note in line 4: '=SUM(B2:B4)'.",
            "Note in line 5: 'gas in, door opened'.",
            "Times come from column 'minute', the first is '0 min'.",
            "Took column 'treated in °F' as treated, turned from °F into °C.",
            "Took column 'control in °F' as control, turned from °F into °C.",
        ),
    ),
    "newest-first-day-first.csv": (
        {},
        [0, 2, 4],
        {"treated": [21.4, 21.5, 21.6], "control": [21.3, 21.4, 21.4]},
        (
            COMMAS,
            "Times come from column 'Date + Time', the first is '13/03/2026 23:59:58'.",
            "The newest line came first: read from the last line to the first.",
            *PLAIN,
        ),
    ),
    "summer-time-ends.csv": (
        {"clock": "summer time"},
        [0, 2, 4, 6],
        {"treated": [21.4, 21.4, 21.5, 21.6], "control": [21.3, 21.3, 21.4, 21.4]},
        (
            COMMAS,
            "Times come from column 'time', the first is '2026-10-25 02:59:56'.",
            "Summer time ends in line 4: the clock's jump of an hour is taken out.",
            "Took column 'treated (°C)' as treated, in °C.",
            "Took column 'control (°C)' as control, in °C.",
        ),
    ),
}


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r", "\r\r\n"])
def test_a_fault_names_the_line_whatever_ends_the_lines(tmp_path, end):
    lines = ["time (s),treated (°C),control (°C)", "0,21.4,21.0", "10,oops,21.1", "20,21.6,21.2", ""]
    (tmp_path / "a.csv").write_bytes(end.join(lines).encode())
    with pytest.raises(IntakeFault) as fault:
        read_run(tmp_path / "a.csv")
    assert str(fault.value).startswith("a.csv, line 3, column 'treated (°C)': 'oops' is no number.")
    (tmp_path / "b.csv").write_bytes(end.join(lines).replace("oops", "21.5").encode())
    run = read_run(tmp_path / "b.csv")
    assert len(run.readings) == 3 and not any("Left out" in remark for remark in run.remarks)


@pytest.mark.parametrize("name", SAMPLES)
def test_a_sample_file_is_read_with_word_of_all_that_was_decided(name):
    words, seconds, columns, remarks = SAMPLES[name]
    run = read_run(FILES / name, **words)
    assert run.readings.index.tolist() == seconds and list(run.readings) == list(columns)
    for column, values in columns.items():
        assert run.readings[column].to_numpy() == pytest.approx(np.array(values, dtype=float), abs=5e-5, nan_ok=True)
    assert run.remarks == remarks and run.name == Path(name).stem


def test_every_sample_file_is_used():
    others = {"README.md", "left-logger.csv", "right-logger.csv", "odd-readings.csv", "page.csv", "turns-without-names.csv"}
    assert {path.name for path in FILES.iterdir() if path.is_file()} == others | set(SAMPLES)


def test_a_web_page_is_refused():
    assert str(look(FILES / "page.csv").question) == (
        "page.csv, line 1: This is a web page saved under another name. Go back and download or export the table itself, as CSV."
    )


WORDS = {"5-pipe-kelvin.txt": {"treated": "Probe 1", "control": "Probe 2"}}


@pytest.mark.parametrize("path", sorted(SIX.iterdir()), ids=lambda path: path.name)
def test_one_run_written_by_six_loggers_is_one_run(path):
    """To half a step of the coarsest display: 0.005 °C, and 0.01 K or °F turned into °C."""
    first, run = read_run(sorted(SIX.iterdir())[0]), read_run(path, **WORDS.get(path.name, {}))
    assert run.readings.index.to_numpy() == pytest.approx(first.readings.index.to_numpy(), abs=0.01)
    for vessel in ("treated", "control"):
        assert run.readings[vessel].to_numpy() == pytest.approx(first.readings[vessel].to_numpy(), abs=0.0101)


def test_the_only_word_the_six_need_is_which_probe_was_where():
    questions = {path.name: look(path).question for path in sorted(SIX.iterdir())}
    assert {name for name, question in questions.items() if question} == {"5-pipe-kelvin.txt"}
    assert questions["5-pipe-kelvin.txt"].keyword == "treated"


def test_what_passes_between_the_stages_can_be_printed():
    tables = [str(table).splitlines() for table in steps(taken(FILES / "serial-days.csv"), Asked())]
    assert tables[0][:2] == ["line\tTime\tTreated (°C)\tControl (°C)", "2\t46082.9999768519\t21.4\t21.5"]
    assert tables[-1][:2] == ["line\ttime in s: Time\ttreated: Treated (°C)\tcontrol: Control (°C)", "2\t0\t21.4\t21.5"]


def test_a_look_keeps_what_was_understood_before_the_question():
    reading = look("time (s),A (°C),B (°C)\n0,21.4,21.5\n2,21.5,21.5\n")
    assert reading.run is None and reading.question.keyword == "treated"
    assert reading.remarks == (COMMAS, "Times are seconds, in column 'time (s)'.")
    assert reading.rows == ("line\ttime (s)\tA (°C)\tB (°C)", "2\t0\t21.4\t21.5", "3\t2\t21.5\t21.5")
    settled = look("time (s),A (°C),B (°C)\n0,21.4,21.5\n2,21.5,21.5\n", treated="A", control="B")
    assert settled.question is None and settled.run.readings.treated.tolist() == [21.4, 21.5]


def test_nothing_is_found_in_a_file_that_can_not_be_opened():
    reading = look("no-such-file.csv")
    assert (reading.rows, reading.remarks, reading.run) == ((), (), None)


@pytest.mark.parametrize(
    "cell, said",
    [
        ("-300", "control (°C): 1 reading can't be, the first -300 in line 3; counted as missing."),
        ("-9999", "control (°C): 1 reading can't be, the first -9999 in line 3; counted as missing."),
        ("1e10", "control (°C): 1 reading can't be, the first 1e+10 in line 3; counted as missing."),
    ],
)
def test_what_can_not_be_a_reading_is_missing_and_said(cell, said):
    run = read_run(f"time (s),treated (°C),control (°C)\n0,21.4,21.5\n2,21.5,{cell}\n4,21.5,21.5\n")
    assert run.readings.control.isna().tolist() == [False, True, False] and said in run.remarks


def test_the_file_is_the_same_afterwards(tmp_path):
    path = tmp_path / "run.csv"
    path.write_bytes((FILES / "hand-table.csv").read_bytes())
    path.chmod(0o444)
    assert read_run(path).source.sha256 == Raw("a", path.read_bytes()).sha256
    assert path.read_bytes() == (FILES / "hand-table.csv").read_bytes()


def test_many_notes_are_counted():
    rows = "".join(f"{n},21.4,21.5,note {n}\n" for n in range(30))
    run = read_run(f"time (s),treated (°C),control (°C),comment\n{rows}")
    assert run.remarks[1] == "Note in line 2: 'note 0'." and run.remarks[21] == "10 more notes are left out."
