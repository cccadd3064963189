"""The view of lesson 03: a shift drops out, a scale does not, light shows in the probe; each held against a sum by hand."""

import numpy as np
import pytest

from kit import example_run, paired_effect
from kit.widgets.probes import probes_view
from kit.widgets.probes.probes import BASALT, EXCESS_K, GRIPS, IN_CO2, of_basalt, read_with
from tests.widgets.parts import move

RUN = example_run("basalt")
PLAIN = paired_effect(RUN, BASALT).warming.value


@pytest.fixture
def view():
    return probes_view(RUN, BASALT)


def effect(**faults):
    return paired_effect(read_with(RUN, BASALT, **{"shift": 0, "scale": 0, **faults}), BASALT).warming.value


def change_of(name):
    before, after = (RUN.readings[name].loc[60 * start : 60 * end].mean() for start, end in (BASALT.baseline, BASALT.response))
    return after - before


@pytest.mark.parametrize("end", ["low", "high"])
def test_it_answers_at_the_ends_of_its_grips(view, end):
    answer = move(view, **{grip.name: getattr(grip, end) for grip in GRIPS if hasattr(grip, "low")}, light="both", display="whole")
    assert "trouble" not in answer and len(answer["line"]["x"]) <= 300 and np.isfinite(answer["effect"]["span"]).all()


def test_a_shift_drops_out():
    assert effect(shift=0.5) == pytest.approx(PLAIN, abs=0.005)  # half a step of the display at most


@pytest.mark.parametrize("percent", [-5, 1, 5])
def test_a_scale_adds_its_share_of_the_treated_vessels_own_change(percent):
    assert effect(scale=percent) - PLAIN == pytest.approx(percent / 100 * change_of("treated"), abs=0.005)


def test_light_on_a_probe_in_co2_adds_what_the_gas_carries_away_less():
    """In air the excess drops out like a shift; what is left is what CO2 adds to it, whether or not the control is lit as well."""
    for light in ("treated", "both"):
        assert effect(light=light) - PLAIN == pytest.approx(EXCESS_K * (IN_CO2 - 1), abs=0.005)


def test_in_the_beaker_each_shows_its_own(view):
    assert move(view, shift=0.5)["shown"] == ["24.50 °C", "24.00 °C"]
    assert move(view, shift=0, scale=5)["shown"][0] == "25.20 °C"
    lit = move(view, scale=0, light="treated")
    assert lit["lit"] == [1, 0] and float(lit["shown"][0].split()[0]) == pytest.approx(24 + EXCESS_K, abs=0.005)
    assert move(view, display="whole", light="none")["shown"] == ["24 °C", "24 °C"]


def test_the_table_takes_one_fault_at_a_time(view):
    cells = dict(view.answer["table"]["rows"])
    assert cells["none"] == cells["shift of 0.5 °C"] != cells["scale off by 1 %"]


def test_what_the_cards_are_told():
    told = of_basalt()
    assert told.values == {"shift": "same", "light": "itself"} and told.texts["effect"] == told.texts["shifted"]
    assert float(told.texts["one_percent"].split()[0]) == pytest.approx(change_of("treated") / 100, abs=0.005)
