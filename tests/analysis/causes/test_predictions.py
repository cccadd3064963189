"""The record of predictions: made by the model, not by hand, and the words that follow from its numbers."""

import numpy as np
import pytest

from kit.analysis.causes.bounds import LETTERS, LIMITS_C
from kit.analysis.causes.plausible import KINDS, LIMITS, Plausible, drawn, effects_by_cause, plausible_with
from kit.analysis.causes.predictions import BENCHES, READ_WHILE, SEED, CausePrediction, computed_table, held, prediction, ratio_ranges, record
from kit.analysis.causes.rivals import RUNS
from kit.faults import Fault

SOME = slice(0, BENCHES, 40)


def test_a_part_of_the_record_made_anew_is_what_is_kept():
    """Eight of its benches, three kinds of run; fewer benches at once take other steps, which differ by up to 0.02 °C."""
    bench = held(drawn(Plausible(), 2 * BENCHES, SEED), BENCHES)
    some = {name: values[SOME] for name, values in bench.items()}
    for kind in ("gas", "argon", "covered_shaded"):
        whole, _, share = effects_by_cause(some, kind)
        places = ["mdcabehf".index(letter) for letter in LETTERS]
        assert record().made[kind][:, SOME] == pytest.approx(whole[places], abs=0.02)
        assert record().shares[kind][SOME] == pytest.approx(share, abs=0.005)


def test_the_record_holds_over_two_hundred_benches_read_while_the_gas_is_in():
    assert BENCHES >= 200 and all(made.shape == (len(LETTERS), BENCHES) for made in record().made.values())
    assert min(record().shares["gas"].min(), record().shares["argon"].min()) >= READ_WHILE and set(record().made) == set(KINDS) == set(RUNS)


@pytest.mark.parametrize("letter", LETTERS)
def test_every_bench_lies_within_the_stated_limits(letter):
    made = record().made["gas"][LETTERS.index(letter)]
    assert LIMITS_C[letter][0] <= made.min() and made.max() <= LIMITS_C[letter][1] + 0.05


# What theory says of these, whatever the bench: no gas no cause of it, no absorption in argon, no lamp no light, a film no exchange.
SURE = {
    ("m", "covered"): "gone", ("m", "air"): "gone", ("m", "waited"): "gone", ("m", "shaded"): "same", ("m", "swapped"): "same",
    ("m", "argon"): "same", ("m", "filtered"): "less", ("d", "shaded"): "gone", ("d", "dark"): "gone", ("d", "covered"): "more",
    ("a", "argon"): "gone", ("b", "argon"): "gone", ("a", "dark"): "gone", ("a", "filtered"): "gone", ("a", "shaded"): "same",
    ("c", "argon"): "more", ("f", "swapped"): "changes sign", ("f", "dark"): "gone", ("f", "air"): "same",
}  # fmt: skip


@pytest.mark.parametrize("letter, kind", SURE)
def test_words_follow_from_the_model(letter, kind):
    assert prediction(letter, kind).word == SURE[letter, kind]


@pytest.mark.parametrize("letter", LETTERS)
def test_the_gas_run_is_what_all_else_is_measured_by(letter):
    assert (prediction(letter, "gas").low, prediction(letter, "gas").high) == pytest.approx((1, 1))


@pytest.mark.parametrize(
    "low, high, word",
    [(-0.2, 0.2, "gone"), (-1.3, -0.2, "changes sign"), (0.75, 1.33, "same"), (1.0, 4, "more"), (0.1, 0.75, "less"), (0.1, 1.2, "can't say")],
)
def test_the_limits_of_the_words(low, high, word):
    assert CausePrediction("m", "argon", low, high).word == word


@pytest.mark.parametrize("shares", [None, {"gas": 0.3}, {"gas": 0.3, "covered": 0.6}])
def test_ratio_ranges_hold_every_bench_they_are_made_from(shares):
    table = record()
    low, high, slack = (each[:, None] for each in ratio_ranges(table, "argon", shares))
    size, made = table.made["gas"], table.made["argon"]
    inside = (made >= np.minimum(low * size, high * size) - slack - 1e-9) & (made <= np.maximum(low * size, high * size) + slack + 1e-9)
    assert inside.mean() > (0.999 if shares is None else 0.5)


def test_a_known_share_narrows_what_hangs_on_it():
    plain, known = ratio_ranges(record(), "covered"), ratio_ranges(record(), "covered", {"gas": 0.3, "covered": 0.6})
    place = LETTERS.index("d")
    assert known[1][place] - known[0][place] < plain[1][place] - plain[0][place]


def test_a_bench_that_loses_its_gas_before_the_reading_is_refused():
    with pytest.raises(Fault) as caught:
        computed_table(plausible_with({"draught_ml_s": 20}), 10)
    assert str(caught.value) == (
        "On a bench like this the gas is gone before the reading. Read sooner, or take a deeper vessel or a narrower mouth."
    )


@pytest.mark.parametrize(
    "given, message",
    [
        ({"card_w": -1}, "card_w can't be -1 W here. Give 0 to 20 W."),
        ({"mouth_cm": (8, 6)}, "mouth_cm must be one number or a pair, least before most. This was given: (8, 6)."),
        ({"watts": 3}, f"There is no input 'watts'. Inputs: {', '.join(LIMITS)}."),
    ],
)
def test_what_cannot_be_is_refused(given, message):
    with pytest.raises(Fault) as caught:
        plausible_with(given)
    assert str(caught.value) == message
