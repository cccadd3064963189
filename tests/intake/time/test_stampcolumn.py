"""Dates that name no year: the time between readings is that of the calendar, over the year's end and a leap day (Python's `datetime`)."""

from datetime import datetime, timedelta

import pytest

from kit.intake import look

FORMS = "%b %e %H:%M:%S", "%d %B %H:%M:%S", "%a %b %d %H:%M:%S"


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("start", ["2023-12-31 23:50", "2024-02-28 23:50", "2024-02-29 23:50", "2025-02-28 23:50", "2027-12-31 12:00", "2026-06-30 23:50"])
@pytest.mark.parametrize("newest_first", [False, True])
def test_a_date_without_a_year_counts_as_the_calendar_does(start, form, newest_first):
    moments = [datetime.fromisoformat(start) + timedelta(hours=6 * step) for step in range(0, 12)]
    rows = [f"{moment.strftime(form)},{21 + step / 10:.1f},20.5" for step, moment in enumerate(moments)]
    text = "\n".join(["time,treated_degC,control_degC", *(rows[::-1] if newest_first else rows), ""])
    run = look(text).run
    assert run.readings.index.tolist() == [6 * 3600 * step for step in range(0, 12)]
    assert any("The dates name no year" in remark for remark in run.remarks)


def test_a_month_has_no_32nd_day():
    text = "time,treated_degC,control_degC\nMar 31 10:00:00,21.4,21.3\nMar 32 10:00:02,21.4,21.3\nMar 33 10:00:04,21.4,21.3\n"
    assert "'Mar 32 10:00:02' is no date" in str(look(text).question)


@pytest.mark.parametrize(
    "date, moment",
    [("2026 3 1 10 0", "2026-03-01T10:00"), ("2026 1 1 2 1", "2026-01-01T02:01"), ("2026 60 3 1 10 0", "2026-03-01T10:00")],
)
def test_month_day_and_hour_without_names_are_no_day_of_the_year(date, moment):
    rows = "".join(f"{date} {10 * n % 60} {21 + 0.1 * n:.2f} {20 + 0.1 * n:.2f}\n" for n in range(6))
    columns = len(date.split()) + 2
    run = look(rows, treated=columns, control=columns + 1, unit="degC").run
    assert run.readings.index.tolist() == [0, 10, 20, 30, 40, 50] and any(moment in remark for remark in run.remarks)
