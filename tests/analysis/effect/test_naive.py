"""The range of independent readings: labelled wherever it shows, and too narrow."""

import pytest

from kit import Fault, Windows, naive_effect, paired_effect

WINDOWS = Windows.of_perturbation(11)


def test_it_says_what_it_takes_for_granted_wherever_it_shows(made):
    naive = naive_effect(made(), WINDOWS)
    for shown in (str(naive), naive._repr_html_(), naive.explain(), naive.to_dict()["label"]):
        assert "as if readings were independent (they are not)" in shown.lower()
    assert str(naive).endswith("Not a range to report.")


def test_it_has_the_same_value_and_carries_the_honest_range(made):
    run = made()
    naive, honest = naive_effect(run, WINDOWS), paired_effect(run, WINDOWS)
    assert naive.warming.value == pytest.approx(honest.warming.value)
    assert naive.honest.warming == honest.warming and naive.times_narrower > 5


def test_its_account_compares_readings_with_looks(made):
    naive = naive_effect(made(), WINDOWS)
    worth = f"they are worth about {naive.honest.noise.independent:.0f}."
    assert f"It takes the 31 readings of the baseline for 31 independent readings; {worth}" in naive.explain()


def test_one_reading_has_no_scatter_to_go_by(made):
    with pytest.raises(Fault) as fault:
        naive_effect(made(step_s=60), Windows((10.5, 11.5), (11.5, 12), (19.5, 21)))
    assert str(fault.value) == "This range needs two readings in the baseline and two in the response. Make the windows wider."
