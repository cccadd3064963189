"""Sentences, tables and JSON made of results."""

import json
from dataclasses import dataclass

import numpy as np
import pytest

from kit.words import clock, counted, listed, plain, some, table_html


@pytest.mark.parametrize(("seconds", "text"), [(660, "11 min 0 s"), (45.5, "45.5 s"), (0, "0 s"), (59.96, "1 min 0 s"), (1290, "21 min 30 s")])
def test_clock(seconds, text):
    assert clock(seconds) == text


def test_lists_and_counts_read_aloud():
    assert [listed("a"), listed("ab"), listed("abc"), listed("abc", "or")] == ["a", "a and b", "a, b and c", "a, b or c"]
    assert [counted(1, "reading"), counted(1200, "reading"), counted(2, "index", "indices")] == ["1 reading", "1,200 readings", "2 indices"]


def test_a_long_list_says_how_many_more_there_are():
    assert some("abc", 3) == "a, b and c"
    assert some((f"g{place}" for place in range(5000)), 3) == "g0, g1 and 4,998 more"


def test_a_table_escapes_what_came_from_a_file():
    assert "<script>" not in table_html([("<script>", "<b>")], "<i>")


def test_plain_gives_json_without_nan():
    @dataclass(frozen=True)
    class Pair:
        value: float
        series: np.ndarray

    made = plain({"pair": Pair(np.float64(1.5), np.array([1.0, np.nan])), 3: (True, None)})
    assert json.loads(json.dumps(made, allow_nan=False)) == {"pair": {"value": 1.5, "series": [1.0, None]}, "3": [True, None]}
