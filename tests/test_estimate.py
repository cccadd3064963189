"""Numbers with their uncertainty, and how they are rounded for people."""

from math import inf, isnan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from IPython.lib.pretty import pretty

from kit.estimate import Estimate, Range, places_for, rounded

sizes = st.floats(1e-6, 1e6)
values = st.floats(-1e6, 1e6)


@pytest.mark.parametrize(
    ("value", "error", "text"),
    [
        (1.5238, 0.0842, "1.524 ± 0.084 °C"),  # rule of JCGM 100:2008, 7.2.6: uncertainty to two digits, value to match
        (1.0, 0.0996, "1.00 ± 0.10 °C"),  # the uncertainty is rounded first: 0.0996 is 0.10
        (-0.00012, 0.023, "0.000 ± 0.023 °C"),  # no minus before a zero
        (-3.21, 0.5, "−3.21 ± 0.50 °C"),
        (12345.0, 678.0, "12340 ± 680 °C"),  # round half to even, to tens
        (0.5, 0.0, "0.5 °C, uncertainty not determined"),
    ],
)
def test_prints_by_gum_7_2_6(value, error, text):
    assert str(Estimate.from_error(value, error, 1.96)) == text


def test_jcgm_100_h3_result_prints_as_published():
    # JCGM 100:2008, annex H.3 (printed results, from memory): b(30 °C) = -0.1494 °C with u = 0.0041 °C.
    assert str(Estimate.from_error(-0.14937, 0.00414, 1.96)) == "−0.1494 ± 0.0041 °C"


@pytest.mark.parametrize(
    ("low", "high", "text"),
    [
        (1.462, 1.601, "1.46 to 1.60 °C"),
        (1.37, 1.67, "1.37 to 1.67 °C"),
        (-0.034, 0.112, "−0.03 to 0.11 °C"),
        (1.234, inf, "at least 1.23 °C"),
        (-inf, 2.5, "at most 2.50 °C"),
        (-inf, inf, "not determined"),
    ],
)
def test_interval_in_words(low, high, text):
    assert Estimate(1.5, 0.03, low, high).range == text


def test_value_and_interval_match_in_digits():
    assert Estimate(1.5312, 0.03, 1.462, 1.601).text == "1.53 °C (95 %: 1.46 to 1.60 °C)"


def test_undetermined_holds_everything_and_says_so():
    nothing = Estimate.undetermined()
    assert isnan(nothing.value) and nothing.holds(1e9) and nothing.text == str(nothing) == "not determined"


@given(values, sizes, st.floats(-100, 100).filter(lambda factor: abs(factor) > 1e-3))
def test_another_unit_scales_every_part(value, error, factor):
    here = Estimate.from_error(value, error, 2)
    there = here.scaled(factor, "°F")
    assert there.low <= there.high and there.half_width == pytest.approx(abs(factor) * here.half_width, rel=1e-9, abs=1e-6 * abs(value * factor))
    assert there.value == value * factor and there.unit == "°F"


@given(sizes)
def test_two_digits_are_two_digits(uncertainty):
    shown = rounded(uncertainty, places_for(uncertainty, digits=2))
    assert len(shown.replace(".", "").lstrip("0").rstrip("0")) <= 2
    assert float(shown) == pytest.approx(uncertainty, rel=0.051)


@given(values, sizes)
def test_rounding_moves_a_value_by_at_most_a_twentieth_of_its_uncertainty(value, uncertainty):
    shown = rounded(value, places_for(uncertainty, digits=2)).replace("−", "-")
    assert abs(float(shown) - value) <= 0.051 * uncertainty + 1e-9


@pytest.mark.parametrize(
    "low, high, text",
    [
        (1.528, 2.213, "1.5 to 2.2 L"),
        (1.340, 1.432, "1.34 to 1.43 L"),
        (-0.32, -0.0042, "−0.32 to −0.004 L"),
        (-1.0, -0.0002, "−1.0 to 0 L"),
        (0, 0.25, "0 to 0.25 L"),
        (1234, 5678, "1200 to 5700 L"),
        (5, 5, "5.0 L"),
    ],
)
def test_a_range_prints_its_ends_to_two_digits(low, high, text):
    assert str(Range(low, high, "L")) == text


def test_a_range_meets_what_it_touches():
    assert Range(0, 1, "K").meets(Range(1, 2, "K")) and not Range(0, 1, "K").meets(Range(1.1, 2, "K"))
    assert Range(0, 1, "K").holds(1) and Range(-1, 2, "K").scaled(-1, "K") == Range(-2, 1, "K")


@pytest.mark.parametrize("number", [Estimate.from_error(1.5, 0.05, 2), Range(0.1, 0.4, "°C")])
def test_a_notebook_shows_the_words_not_the_fields(number):
    assert pretty(number) == str(number)
