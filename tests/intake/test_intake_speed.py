"""How fast and in how much memory a large record is read, against pandas alone."""

import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from kit.intake.classes import read_class
from kit.intake.read import read_run

ROOT = Path(__file__).parents[2]
ROWS = 1_000_000
PEAK = """
import re, sys
from pathlib import Path
from kit.intake.read import read_run

def peak_kib():
    return int(re.search(r"VmHWM:\\s+(\\d+)", Path("/proc/self/status").read_text())[1])

read_run(sys.argv[1])
before = peak_kib()
read_run(sys.argv[2])
print(peak_kib() - before)
"""
PAIRS = """
import statistics, sys, time
import pandas as pd
from kit.intake.read import read_run

def taken_s(function):
    start = time.process_time(), time.perf_counter()
    function(sys.argv[1])
    return time.process_time() - start[0], time.perf_counter() - start[1]

read_run(sys.argv[1])
pairs = [(taken_s(pd.read_csv), taken_s(read_run)) for _ in range(9)]
print(*(statistics.median(ours[kind] / bare[kind] for bare, ours in pairs) for kind in (0, 1)))
"""


@pytest.fixture(scope="module")
def large(tmp_path_factory):
    """A million readings, one a second, as the kit's own CSV."""
    noise, seconds = np.random.default_rng(0), np.arange(ROWS)
    drift = np.sin(seconds / 1e4)
    columns = {
        name: np.round(level + drift + noise.normal(0, 0.02, ROWS), 2) for name, level in (("treated_degC", 30), ("control_degC", 29))
    }
    path = tmp_path_factory.mktemp("large") / "large.csv"
    pd.DataFrame({"elapsed_s": seconds, **columns, "gas_ppm": np.round(500 + 100 * drift)}).to_csv(path, index=False)
    return path


def taken_s(function, path):
    start = time.perf_counter()
    function(path)
    return time.perf_counter() - start


@pytest.mark.alone
@pytest.mark.slow
def test_a_million_rows_take_at_most_twice_the_work_of_pandas_alone(large, capsys):
    """Both parse on all processors (pandas from 3.1 on), so the work is processor time; the time on the clock has a looser bar."""
    shown = subprocess.run([sys.executable, "-c", PAIRS, large], cwd=ROOT, capture_output=True, text=True, check=True)
    work, clock = map(float, shown.stdout.split())
    with capsys.disabled():
        print(f"\n1,000,000 rows: {work:.2f} times the processor time of pandas alone, {clock:.2f} times its time on the clock")
    assert work <= 2 and clock <= 2.5


@pytest.mark.alone
@pytest.mark.slow
@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="peak memory is read from Linux's process table")
def test_a_million_rows_take_at_most_four_times_the_memory_of_the_file(large, capsys):
    small = ROOT / "datasets" / "basalt.csv"
    shown = subprocess.run([sys.executable, "-c", PEAK, small, large], cwd=ROOT, capture_output=True, text=True, check=True)
    times = 1024 * int(shown.stdout) / os.path.getsize(large)
    with capsys.disabled():
        print(f"\n1,000,000 rows: peak memory {times:.1f} times the file")
    assert 1 < times <= 4


@pytest.mark.alone
def test_a_bundled_run_is_read_in_fifteen_milliseconds(capsys):
    path = ROOT / "datasets" / "basalt.csv"
    read_run(path)
    fastest = min(taken_s(read_run, path) for _ in range(20))
    with capsys.disabled():
        print(f"\nbasalt.csv: {1000 * fastest:.1f} ms")
    assert fastest < 0.015


@pytest.mark.alone
def test_a_class_of_thirty_files_is_read_in_three_seconds(tmp_path, capsys):
    files = sorted((ROOT / "datasets" / "class").rglob("*.csv"))
    for number in range(30):
        shutil.copy(files[number % len(files)], tmp_path / f"group-{number:02d}.csv")
    seconds = taken_s(read_class, tmp_path)
    with capsys.disabled():
        print(f"\nA class of 30 files: {seconds:.2f} s")
    assert len(read_class(tmp_path)) == 30 and seconds < 3
