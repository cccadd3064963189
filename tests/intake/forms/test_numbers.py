"""Numbers as loggers, spreadsheets and people in several countries write them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kit.faults import IntakeFault
from kit.intake.forms.numbers import decimal_mark, looks_like_measure, measure, number, tidied


@pytest.mark.parametrize(
    "cell, decimal, value",
    [
        ("21.4", ".", 21.4),
        ("-21.4", ".", -21.4),
        ("+.5", ".", 0.5),
        ("21.", ".", 21),
        ("2.14e1", ".", 21.4),
        ("21,4", ",", 21.4),
        (",5", ",", 0.5),
        ("1,204", ".", 1204),
        ("1,204.5", ".", 1204.5),
        ("1.204", ",", 1204),
        ("1.204,5", ",", 1204.5),
        ("1 204,5", ",", 1204.5),
        ("1'204.5", ".", 1204.5),
        ("12.345.678", ",", 12345678),
    ],
)
def test_a_number_is_read(cell, decimal, value):
    assert number(cell, decimal) == value


@pytest.mark.parametrize(
    "cell",
    ["", "-", ".", "abc", "1e", "1_0", "0x10", "inf", "nan", "１２", "21.4.1", "21,4", "1,20", "12,3456", "--5", "1 2", "1e999", "21.4C"],
)
def test_anything_else_is_none(cell):
    assert number(cell, ".") is None


@pytest.mark.parametrize(
    "cells, mark",
    [
        (["21.4"], "."),
        (["21,4"], ","),
        (["1.204", "21,4"], ","),
        (["1,204", "21.4"], "."),
        (["1.204,5"], ","),
        (["1,204.5"], "."),
        (["1.204.000"], ","),
        (["0,412"], ","),
        (["21.412"], "."),
        (["5"], "."),
        (["1204,512"], ","),
        (["21,4 °C"], ","),
        ([], "."),
    ],
)
def test_the_numbers_of_a_file_show_their_decimal_mark(cells, mark):
    assert decimal_mark(list(enumerate(cells, 2)), None, "a.csv") == mark


WHICH = "Say decimal=',' (21.412) or decimal='.' (21412)."
ALIKE = "Write them alike in a copy of the file."


@pytest.mark.parametrize(
    "cells, asked, message",
    [
        (["21,412", "9,998"], None, "a.csv, line 2: '21,412' could be 21.412 or 21412: which mark goes before the decimals? " + WHICH),
        (["21.4", "21,4"], None, "a.csv, line 3: '21,4' has a decimal comma, but '21.4' in line 2 a decimal point. " + ALIKE),
        (["21.4"], ";", "A decimal mark can't be ';'. Say decimal=',' (21,4) or decimal='.' (21.4)."),
    ],
)
def test_what_they_leave_open_is_asked(cells, asked, message):
    with pytest.raises(IntakeFault) as fault:
        decimal_mark(list(enumerate(cells, 2)), asked, "a.csv")
    assert str(fault.value) == message


@pytest.mark.parametrize("asked, value", [(",", 21.412), (".", 21412)])
def test_the_word_settles_it(asked, value):
    assert number("21,412", decimal_mark([(2, "21,412")], asked, "a.csv")) == value


@pytest.mark.parametrize(
    "cell, found", [("21.4 °C", (21.4, "°C")), ("70.5°F", (70.5, "°F")), ("400 ppm", (400, "ppm")), ("21.4 cm", None), ("21.4", None)]
)
def test_a_number_may_carry_its_unit(cell, found):
    assert measure(cell, ".") == found and looks_like_measure(cell) == (found is not None)


def test_typographic_signs_are_the_plain_ones():
    assert tidied("\u00a0\u221221\u202f400 ") == "-21 400"


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_every_float_is_read_to_the_last_bit(value):
    assert number(repr(value), ".") == value or "e" in repr(value) and len(repr(value).split("e")[1].lstrip("+-")) > 3
