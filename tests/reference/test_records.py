"""Values from outside: one JSON record each, run by one function, and refused unless it says where it comes from and why that close.

A record names the function in `of` ("kit.module:function"), its keyword arguments in `input` (lists become arrays), what comes out in
`expected` with its `unit`, the `tolerance` in that unit and `why` it is as wide as it is, the `source`, and how the value was `obtained`.
A tolerance of 0 is for values that are exact, and then `exact` says so. `take` names a field of the result, `warming.value` say, or
several in a list; `expected` and `tolerance` are lists then. An input with an `of` and `input` of its own is made by that call first.
"""

import json
from functools import reduce
from importlib import import_module
from pathlib import Path

import numpy as np
import pytest

KEYS = {"what", "of", "input", "expected", "unit", "tolerance", "why", "source", "obtained"}
OBTAINED = ("printed", "computed", "from memory")
RECORDS = {path.stem: json.loads(path.read_text(encoding="utf-8")) for path in sorted(Path(__file__).parent.glob("*.json"))}


def result_of(record):
    """What the kit gives for the record's input."""
    result = called(record)
    taken = [reduce(part, path.split("."), result) for path in np.atleast_1d(record.get("take", []))]
    return result if not taken else taken if isinstance(record["take"], list) else taken[0]


def part(thing, name):
    """A field of a result; of a dict, the entry under that number."""
    return thing[int(name)] if isinstance(thing, dict) else getattr(thing, name)


def called(record):
    module, name = record["of"].split(":")
    function = reduce(getattr, name.split("."), import_module(module))
    return function(**{key: as_argument(value) for key, value in record["input"].items()})


def as_argument(value):
    if isinstance(value, dict) and "of" in value:
        return called(value)
    return np.asarray(value) if isinstance(value, list) else value


def faults_of(record):
    """Everything that keeps a record from being one."""
    yield from (f"lacks {key}" for key in sorted(KEYS - set(record)))
    yield from (f"empty {key}" for key in ("what", "why", "source") if len(str(record.get(key, "")).split()) < 2)
    if not str(record.get("obtained", "")).startswith(OBTAINED):
        yield f"obtained must begin with one of {OBTAINED}"
    if not np.all(np.asarray(record.get("tolerance", 0)) > 0) and not record.get("exact"):
        yield "a tolerance of 0 without exact"
    if str(record.get("why")).strip() == str(record.get("tolerance")):
        yield "why says the number again"


@pytest.mark.parametrize("record", RECORDS.values(), ids=RECORDS)
def test_the_record_says_where_it_comes_from(record):
    assert not list(faults_of(record))


@pytest.mark.parametrize("record", RECORDS.values(), ids=RECORDS)
def test_the_kit_gives_the_value_from_outside(record):
    expected = np.asarray(record["expected"], dtype=float)
    found = np.asarray(result_of(record), dtype=float)
    assert found.shape == expected.shape
    assert (abs(found - expected) <= record["tolerance"]).all(), f"{found} is not within {record['tolerance']} of {expected}"


GOOD = {
    "what": "boiling point at sea level", "of": "kit.physics.gas.air:boiling_point_c", "input": {"pressure_pa": 101325}, "expected": 99.974,
    "unit": "°C", "tolerance": 0.005, "why": "the formulations differ by that", "source": "IAPWS R7-97", "obtained": "computed with iapws",
}  # fmt: skip


@pytest.mark.parametrize(
    "change, fault",
    [
        ({"source": ""}, "empty source"),
        ({"why": ""}, "empty why"),
        ({"why": "0.005"}, "why says the number again"),
        ({"tolerance": 0}, "a tolerance of 0 without exact"),
        ({"obtained": "our own output"}, f"obtained must begin with one of {OBTAINED}"),
    ],
)
def test_a_record_without_its_reasons_is_refused(change, fault):
    assert not list(faults_of(GOOD))
    assert fault in list(faults_of({**GOOD, **change}))


@pytest.mark.parametrize("key", sorted(KEYS))
def test_a_record_that_lacks_a_part_is_refused(key):
    assert f"lacks {key}" in list(faults_of({name: value for name, value in GOOD.items() if name != key}))
