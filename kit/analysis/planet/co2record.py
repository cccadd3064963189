"""The measured CO2 of the air at Mauna Loa, 1958 to 2001: its trend, its season, and how sure each is.

Weekly means as the package statsmodels carries them (public domain): Keeling & Whorf 2004, Atmospheric CO2 concentrations derived from
flask air samples at sites in the SIO network, Carbon Dioxide Information Analysis Center, obtained by statsmodels on 2014-03-15.
"""

from dataclasses import dataclass
from functools import cache
from math import sqrt

import numpy as np

from kit.estimate import Estimate
from kit.faults import Fault
from kit.statistics import coverage_factor
from kit.words import account, plain, table_html

SOURCE = "Keeling & Whorf 2004, Carbon Dioxide Information Analysis Center; carried by statsmodels"
LICENCE = "public domain"


@dataclass(frozen=True, eq=False)
class Co2Record:
    """Monthly CO2 (ppm by volume) with its parts. `years`, `ppm`: the months; `trend_ppm`: centred mean over twelve (NaN at the ends).

    `season_ppm`: mean departure of each month of the year from the trend, `season_spread_ppm` its standard deviation from year to year.
    `yearly`: mean of each whole year. `growth_first`, `growth_last`: ppm a year over the first and the last ten years. `swing`: from the
    season's lowest to its highest. `weeks` in the source, `missing` among them, `filled` months that were interpolated; first and last day.
    """

    years: np.ndarray
    ppm: np.ndarray
    trend_ppm: np.ndarray
    season_ppm: np.ndarray
    season_spread_ppm: np.ndarray
    yearly: dict
    growth_first: Estimate
    growth_last: Estimate
    swing: Estimate
    weeks: int
    missing: int
    filled: int
    first_day: str
    last_day: str
    source: str = SOURCE
    licence: str = LICENCE

    def mean_of(self, year):
        """Mean CO2 (ppm) of a whole year; a Fault outside the record."""
        if year not in self.yearly:
            raise Fault(f"The record holds whole years from {min(self.yearly)} to {max(self.yearly)}, not {year}.")
        return self.yearly[year]

    def __str__(self):
        growth = f"{self.growth_first.text} at first and {self.growth_last.text} at last"
        return f"CO2 rose by {growth}, with a yearly swing of {self.swing.text}."

    def explain(self):
        """What was measured, and how the numbers were made from it."""
        return account(
            f"{self.weeks:,} weekly means from {self.first_day} to {self.last_day}, {self.missing} of them missing. Source: {self.source}.",
            f"They were averaged by month; {self.filled} months without a week were filled in on a straight line between their neighbours.",
            f"The trend is the mean over twelve months around each month. It grew by {self.growth_first.text} in the first ten years and by "
            f"{self.growth_last.text} in the last ten.",
            f"Around the trend CO2 swings by {self.swing.text} within a year, as plants take it up and give it back.",
        )

    def _repr_html_(self):
        rows = [("first ten years", self.growth_first.text), ("last ten years", self.growth_last.text), ("yearly swing", self.swing.text)]
        origin = [("days", f"{self.first_day} to {self.last_day}"), ("source", self.source), ("licence", self.licence)]
        return table_html([*rows, *origin], "CO2 at Mauna Loa")

    def to_dict(self):
        return plain(self)


def co2_record():
    """Co2Record: monthly means of the weekly ones, five months without a week filled in on a straight line between their neighbours."""
    return _read()


@cache
def _read():
    from statsmodels.datasets import co2

    weekly = co2.load_pandas().data["co2"]
    gappy = weekly.resample("MS").mean()
    monthly = gappy.interpolate()
    trend = _twelve_months(monthly)
    yearly = {int(year): float(months.mean()) for year, months in monthly.groupby(monthly.index.year) if len(months) == 12}
    growth = np.diff(list(yearly.values()))
    by_month = (monthly - trend).groupby(monthly.index.month)
    return Co2Record(
        years=monthly.index.year.to_numpy() + (monthly.index.month.to_numpy() - 0.5) / 12,
        ppm=monthly.to_numpy(),
        trend_ppm=trend.to_numpy(),
        season_ppm=by_month.mean().to_numpy(),
        season_spread_ppm=by_month.std().to_numpy(),
        yearly=yearly,
        growth_first=_mean_growth(growth[:10], growth),
        growth_last=_mean_growth(growth[-10:], growth),
        swing=_swing(monthly - trend),
        weeks=len(weekly),
        missing=int(weekly.isna().sum()),
        filled=int(gappy.isna().sum()),
        first_day=f"{weekly.index[0]:%Y-%m-%d}",
        last_day=f"{weekly.index[-1]:%Y-%m-%d}",
    )


def _twelve_months(monthly):
    """Mean over twelve months around each month: the two outermost count by half, so that every season counts alike."""
    thirteen = monthly.rolling(13, center=True)
    return (thirteen.sum() - (monthly.shift(6) + monthly.shift(-6)) / 2) / 12


def _mean_growth(some, every):
    """Mean of yearly increases. Neighbouring years are alike, by what the whole record shows: sd/√n · √((1 + r)/(1 - r)).

    Variance of a mean of an AR(1) series; Zwiers & von Storch, J. Climate 8:336, 1995 (from memory).
    """
    alike = max(0.0, float(np.corrcoef(every[1:], every[:-1])[0, 1]))
    error = float(np.std(some, ddof=1)) / sqrt(len(some)) * sqrt((1 + alike) / (1 - alike))
    return Estimate.from_error(float(np.mean(some)), error, coverage_factor(0.95, len(some) - 1), unit="ppm a year")


def _swing(season):
    """Mean of each whole year's highest less lowest departure from the trend, with the standard error of that mean."""
    whole = [months.max() - months.min() for _, months in season.dropna().groupby(season.dropna().index.year) if len(months) == 12]
    error = float(np.std(whole, ddof=1)) / sqrt(len(whole))
    return Estimate.from_error(float(np.mean(whole)), error, coverage_factor(0.95, len(whole) - 1), unit="ppm")
