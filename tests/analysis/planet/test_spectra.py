"""Sources, window and CO2 side by side."""

import numpy as np
import pytest

from kit.analysis.planet.spectra import radiation_curves
from kit.faults import Fault


def test_a_filament_and_a_wall_as_planck_has_them():
    """Shares in %: 7 visible, 75 up to 2.7 µm, 18 beyond; 18 % of a wall in 13 to 17 µm (Planck's law, integrated by scipy)."""
    filament, wall = radiation_curves().sources
    assert (filament.visible, filament.near, filament.beyond) == pytest.approx((7.02, 75.33, 17.61), abs=0.02)
    assert wall.in_bands["15 µm"] == pytest.approx(17.97, abs=0.01)
    assert str(filament) == "filament, 2700 K: 7.0 % visible, 75 % up to 2.7 µm, 18 % beyond"


def test_sunlight_meets_little_co2():
    """0.6 % of sunlight lies in the bands near 2.7 and 4.3 µm (Planck's law, 5772 K, computed)."""
    sun = radiation_curves({"sun": 5772}).sources[0]
    assert sun.in_bands["2.7 µm"] + sun.in_bands["4.3 µm"] == pytest.approx(0.64, abs=0.01)


def test_curves_are_highest_at_one():
    for source in radiation_curves({"sun": 5772, "wall": 300}).sources:
        assert 0.999 < source.curve.max() <= 1 and np.all(source.curve >= 0)


def test_the_sentence_gives_the_window_and_the_emissivity_as_ranges():
    text = str(radiation_curves({"filament": 2700}))
    assert text.endswith("soda-lime glass passes 82 to 95 % of the filament. CO2 over 10 cm: emissivity 0.069 to 0.11.")


@pytest.mark.parametrize(
    "given, message",
    [
        ({"sources": {"ice": -10}}, "The temperature can't be -10 K here. Give 1 to 100,000 K. Kelvin begin at 0, where ice melts at 273.15."),
        ({"share": 2}, "The share of CO2 can't be 2 here. Give 0.0001 to 1."),
        ({"path_m": -1}, "The path can't be -1 m here. Give 0.001 to 3 m."),
    ],
)
def test_what_cannot_be_is_refused(given, message):
    with pytest.raises(Fault) as caught:
        radiation_curves(**given)
    assert str(caught.value) == message


def test_an_unknown_window_is_refused_with_the_list():
    with pytest.raises(Fault) as caught:
        radiation_curves(window="wood")
    assert str(caught.value).startswith("The window 'wood' is not known. Known: soda-lime glass, acrylic,")
