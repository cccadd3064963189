"""The measured CO2 record, against what is known of it."""

import numpy as np
import pytest

from kit.analysis.planet.co2record import co2_record
from kit.faults import Fault

RECORD = co2_record()


def test_the_source_is_whole_and_says_so():
    """2284 weeks, 59 missing, 1958-03-29 to 2001-12-29: the package's own description and count (statsmodels 0.15.0)."""
    assert (RECORD.weeks, RECORD.missing, RECORD.filled) == (2284, 59, 5)
    assert (RECORD.first_day, RECORD.last_day) == ("1958-03-29", "2001-12-29")
    assert RECORD.licence == "public domain" and "Keeling" in RECORD.source


@pytest.mark.parametrize("year, ppm", [(1959, 316.00), (1960, 316.88), (2000, 369.36), (2001, 370.85)])
def test_yearly_means(year, ppm):
    """Computed from the weekly means with pandas 3.1: months, gaps filled on a straight line, years."""
    assert RECORD.mean_of(year) == pytest.approx(ppm, abs=0.05)


def test_growth_as_the_observatory_publishes_it():
    """About 0.9 ppm a year in the 1960s and 1.5 in the 1990s: NOAA's table of annual growth at Mauna Loa (from memory)."""
    assert RECORD.growth_first.holds(0.9) and RECORD.growth_last.holds(1.5)
    assert RECORD.growth_first.unit == "ppm a year"


def test_the_season_peaks_in_may_and_is_lowest_in_autumn():
    """Maximum in May, minimum in September or October, about 6 ppm apart (Keeling et al., Tellus 28:538, 1976, from memory)."""
    assert RECORD.season_ppm.argmax() == 4 and RECORD.season_ppm.argmin() in (8, 9)
    assert RECORD.swing.value == pytest.approx(6, abs=0.4)
    assert abs(RECORD.season_ppm.mean()) < 0.05


def test_the_trend_and_the_season_make_up_the_months():
    """The classical decomposition of statsmodels (centred mean over twelve months, additive) has the same trend and season."""
    import pandas as pd
    from statsmodels.tsa.seasonal import seasonal_decompose

    months = pd.Series(RECORD.ppm, index=pd.date_range("1958-03-01", periods=len(RECORD.ppm), freq="MS"))
    parts = seasonal_decompose(months, period=12)
    assert np.allclose(parts.trend, RECORD.trend_ppm, equal_nan=True, atol=1e-9)
    season = parts.seasonal.groupby(parts.seasonal.index.month).first().to_numpy()
    assert season == pytest.approx(RECORD.season_ppm - RECORD.season_ppm.mean(), abs=1e-9)


def test_a_year_outside_is_refused():
    with pytest.raises(Fault) as caught:
        RECORD.mean_of(1958)
    assert str(caught.value) == "The record holds whole years from 1959 to 2001, not 1958."
