"""The forcing: two quantities, each under its own name."""

import pytest

from kit.analysis.planet.forcings import forcing


def test_the_formula_and_the_assessed_forcing_are_two():
    """5.35 ln(400/278) = 1.947 W/m2 (Myhre et al. 1998, coefficient from memory); 3.93 ± 0.47 a doubling (IPCC AR6, from memory)."""
    found = forcing(400, 278)
    assert found.value_w_m2 == pytest.approx(1.947, abs=0.001)
    assert (found.range.low, found.range.high) == pytest.approx((0.9 * 1.947, 1.1 * 1.947), abs=0.001)
    assert (found.effective.low, found.effective.high) == pytest.approx((3.46 * 0.5250, 4.40 * 0.5250), abs=0.002)
    assert str(found) == (
        "CO2 from 278 to 400 ppm tips the balance by 1.947 W/m² (1.8 to 2.1 W/m² by the formula). "
        "The effective forcing, with the air's quick answers: 1.8 to 2.3 W/m²."
    )


def test_less_co2_tips_it_the_other_way():
    found = forcing(200, 278)
    assert found.range.low < found.value_w_m2 < found.range.high < 0
