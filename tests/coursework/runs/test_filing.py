"""A file that comes in keeps its bytes, and never takes another's place."""

import pytest

from kit.coursework.runs.filing import keep_unchanged, safe_name

NAMES = [
    ("run.csv", "run.csv"),
    ("../../etc/run.csv", "run.csv"),
    ("C:\\Users\\run 1.txt", "run 1.txt"),
    ('a<b>:"c|?*#d.csv', "a-b-c-d.csv"),
    ("...", "run.csv"),
    (".hidden", "hidden"),
    ("größe °C.csv", "größe °C.csv"),
    ("x" * 300 + ".csv", "x" * 80 + ".csv"),
]


@pytest.mark.parametrize("name, safe", NAMES, ids=[safe for _, safe in NAMES])
def test_any_name_becomes_one_that_every_system_takes(name, safe):
    assert safe_name(name) == safe


def test_the_same_bytes_are_kept_once_and_others_beside_them(tmp_path):
    names = [keep_unchanged("a.csv", data, tmp_path).name for data in (b"1\r\n", b"2\n", b"1\r\n", b"2\n")]
    assert names == ["a.csv", "a-2.csv", "a.csv", "a-2.csv"] and (tmp_path / "a.csv").read_bytes() == b"1\r\n"
