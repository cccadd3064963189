"""Twenty thousand damaged files: each is refused in words, read as it stands, or read with word of what was changed.

What 'as it stands' means is decided by a reader of its own (`strictly`), which knows nothing of the kit: one header, the same number of
cells in every line, plain decimal numbers. It makes three claims about every mutation of a valid file:

1. nothing but an `IntakeFault` of at most 40 words is raised, and no case takes longer than two seconds;
2. a run with the same remarks as the undamaged file's holds exactly what the strict reader finds in the damaged file, no line more or less;
3. a run with other remarks holds no reading that is not written in the damaged file.
"""

import random
import re
import time

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from kit.faults import IntakeFault
from kit.intake.read import read_run
from kit.intake.given.source import Raw

pytestmark = pytest.mark.filterwarnings("error")
CASES = 1000
PARTS = 20
SLOWEST_S = 2.0
SIGNS = b",;.:|\t\n\r \"'-+eE0123456789#/x\x00\xff\xb0%()="
NUMBER = re.compile(r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d{1,3})?", re.ASCII | re.IGNORECASE)


def plain(delimiter=",", comma=False):
    """A valid file of twenty readings, every two seconds, in °C and ppm."""
    rows = [f"{2 * n}|{21 + 0.03 * n:.2f}|{20.5 + 0.02 * n:.2f}|{410 + 7 * n}" for n in range(20)]
    text = "\n".join(["elapsed_s|treated_degC|control_degC|gas_ppm", *(row.replace(".", ",") if comma else row for row in rows)])
    return f"{text}\n".replace("|", delimiter).encode()


def stamped(start, stamps, end="\n"):
    rows = (f"{stamp};{21 + 0.03 * n:.2f};{20.5 + 0.02 * n:.2f}" for n, stamp in enumerate(stamps))
    return end.join([start, *rows, ""])


ISO = stamped("stamp;treated (°C);control (°C)", [f"2026-03-01T10:00:{2 * n:02d}+01:00" for n in range(20)])
HALVES = stamped("\nInvented logger;no. 5\n\nclock;treated;control\nh:mm:ss;°C;°C", [f"11:59:{30 + n:02d} AM" for n in range(20)], "\r\n")
DAYS = stamped("Date;treated (°F);control (°F)", [f"{n + 10:02d}.03.2026 23:59" for n in range(20)])
LONG = "time (s),probe,value (°C)\n" + "".join(f"{n},treated,{21 + n / 10}\n{n},control,{20 + n / 10}\n" for n in range(10))
BARS = "| time (min) | treated (K) | control (K) |\n|---|---|---|\n" + "".join(f"| {n} | {294 + n / 10} | {294.5} |\n" for n in range(9))
FIXED = "Time    Treated  Control\n        degC     degC\n" + "".join(
    f"0:00:{n:02d} {21 + n / 10:5.1f}    {'' if n == 4 else 20.5}\n" for n in range(9)
)
QUOTED = (
    'elapsed_s,treated_degC,control_degC,note\n0,21.4,21.3,"Twin Vessels run | name: a | kind: simulated | gain uncertainty: 0.0 | A, b."\n'
)
VALID = {
    "iso": ISO.encode(),
    "halves": HALVES.encode("latin-1"),
    "days": DAYS.encode("utf-16"),
    "long": LONG.encode(),
    "bars": BARS.encode(),
    "fixed": FIXED.encode(),
    "quoted": (QUOTED + "2,21.5,21.3,\n4,21.6,21.4,\n").encode(),
}
STRICT = {"comma": (plain(), ",", "."), "semicolon": (plain(";", comma=True), ";", ","), "tab": (plain("\t"), "\t", ".")}


def mutated(data, dice):
    """`data` with one to three bytes or stretches changed, left out, doubled, moved or cut off."""
    data = bytearray(data)
    for _ in range(dice.choice((1, 1, 1, 2, 3))):
        place = dice.randrange(len(data) + 1)
        length = dice.choice((1, 1, 2, 5, 30))
        piece = bytes(data[place : place + length])
        change = dice.randrange(7)
        if change == 0:
            data[place : place + 1] = bytes([dice.choice(SIGNS)])
        elif change == 1:
            data[place : place + 1] = bytes([dice.randrange(256)])
        elif change == 2:
            del data[place : place + length]
        elif change == 3:
            data[place:place] = bytes([dice.choice(SIGNS)])
        elif change == 4:
            data[place:place] = piece
        elif change == 5:
            del data[place : place + length]
            data[(target := dice.randrange(len(data) + 1)) : target] = piece
        else:
            del data[place if dice.random() < 0.3 else len(data) :]
    return bytes(data)


def read(source, **words):
    """The run, or None where it was refused in at most 40 words and 35 a question; in no more than two seconds."""
    start = time.process_time()
    try:
        return read_run(Raw("damaged.csv", source) if isinstance(source, bytes) else source, **words)
    except IntakeFault as fault:
        assert len(str(fault).split()) <= 40 + 35 * len(fault.questions)
    finally:
        assert time.process_time() - start < SLOWEST_S
    return None


def strictly(data, delimiter, decimal):
    """Rows of four numbers, from a reader that takes nothing but plain tables; None where a line holds anything else."""
    lines = re.split("\r\n|\r|\n", data.decode("latin-1"))[1:]
    cells = [[cell.strip(" \t").replace(decimal, ".") for cell in line.split(delimiter)] for line in lines]
    rows = [row[:4] for row in cells if any(row) and not any(row[4:])]
    even = len(rows) == sum(any(row) for row in cells) and all(len(row) == 4 and all(map(NUMBER.fullmatch, row)) for row in rows)
    return [list(map(float, row)) for row in rows] if even else None


def numbers_in(data):
    """Every number that stands in the text, under either decimal mark and with marks between thousands."""
    text = data.decode("latin-1")
    found = re.findall(r"[\d.,' ]*\d[\d.,' ]*(?:[eE][+-]?\d+)?", text)
    pieces = {piece for each in found for piece in (each, *re.split(r"[,; ]", each))}
    ways = ((piece.replace(" ", "").replace("'", "").replace(drop, "").replace(",", ".")) for piece in pieces for drop in (",", ".", "_"))
    return {abs(float(way)) for way in ways if NUMBER.fullmatch(way)}


@pytest.mark.slow
@pytest.mark.parametrize("part", range(PARTS))
def test_a_damaged_file_is_refused_read_as_it_stands_or_read_with_word_of_it(part):
    dice = random.Random(part)
    for name, (valid, delimiter, decimal) in STRICT.items():
        usual = read_run(Raw("damaged.csv", valid)).remarks
        for _ in range(CASES // 5):
            data = mutated(valid, dice)
            run = read(data)
            if run is not None and run.remarks == usual:
                rows = strictly(data, delimiter, decimal)
                assert rows is not None, data
                rows = np.array(rows)
                assert (run.readings.index == np.round(rows[:, 0] - rows[0, 0], 9)).all(), data
                assert (run.readings.to_numpy() == rows[:, 1:]).all(), data
            elif run is not None:
                held = np.abs(run.readings.to_numpy().ravel())
                assert set(held[np.isfinite(held)]) <= numbers_in(data), data


@pytest.mark.slow
@pytest.mark.parametrize("part", range(PARTS))
def test_a_damaged_file_of_any_kind_is_read_or_refused(part):
    dice = random.Random(100 + part)
    for valid in VALID.values():
        for _ in range(CASES * 2 // 5 // len(VALID)):
            read(mutated(valid, dice))


WORDS = [None, "treated", "control", 1, 2, 3, 0, -1, 99, "", " ", "x", ".", True, 2.0, float("nan"), b"a", [], ["s"], {"a": 1}]
CLOCKS = [
    "s",
    "mm:ss",
    "day first",
    "summer time",
    "sorted",
    "set back",
    "as written",
    "shared event",
    40,
    -3.5,
    float("inf"),
    ["s", "sorted"],
    "",
    (),
]
KEYWORDS = ("treated", "control", "room", "gas", "light", "time", "unit", "decimal")


@pytest.mark.slow
@pytest.mark.parametrize("part", range(4))
def test_any_words_on_any_files_give_a_run_or_a_fault(part):
    dice = random.Random(200 + part)
    valid = [*VALID.values(), *(data for data, *_ in STRICT.values())]
    for _ in range(250):
        files = [mutated(dice.choice(valid), dice) if dice.random() < 0.5 else dice.choice(valid) for _ in range(dice.choice((1, 2, 3)))]
        words = {keyword: dice.choice(WORDS) for keyword in KEYWORDS if dice.random() < 0.25} | {"clock": dice.choice(CLOCKS)}
        read([Raw(f"{place}.csv", data) for place, data in enumerate(files)], **words)


@pytest.mark.parametrize("name", VALID)
def test_the_undamaged_files_are_read(name):
    assert read_run(Raw(f"{name}.csv", VALID[name])).step_s > 0


@pytest.mark.slow
@settings(max_examples=1500, deadline=None, database=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(st.one_of(st.binary(max_size=300), st.text(alphabet="0123456789.,;:\t\n -eE°CTZ/\"'|#", max_size=300).map(str.encode)))
def test_any_bytes_are_read_or_refused(data):
    read(data)
