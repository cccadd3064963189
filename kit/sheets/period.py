"""A run at the bench, laid into one lesson: which minute of the bench is which minute after the bell."""

from dataclasses import dataclass

PERIOD_MIN, GAS_AFTER_BELL_MIN, LAST_MIN = 45, 10, 12  # of a lesson: its length, time for safety and predictions, and for the result (our practice)


@dataclass(frozen=True)
class Period:
    """`rows`: (minutes after the bell, minute of the run or '', what happens), in order of time. `spare_min`: what is left at the end,
    beyond the time for the result; below 0 where the run is too long for one lesson."""

    rows: tuple
    spare_min: float

    @property
    def texts(self):
        """What a sheet may name."""
        lamp = self.rows[0][0]
        fits = f"It fits, with {self.spare_min:g} min to spare."
        long = f"It is {-self.spare_min:g} min too long for one lesson: read earlier, take two lessons, or let half of the class watch for the other half."
        on = f"{-lamp:g} min before the bell" if lamp < 0 else f"{lamp:g} min after the bell"
        return {"period": f"{PERIOD_MIN} min", "lamp_on": on, "period_fits": fits if self.spare_min >= 0 else long}


def period_of(card):
    """The `Period` of a `BenchCard`: the gas goes in ten minutes after the bell, the lamp goes on as long before as the card says."""
    shift = GAS_AFTER_BELL_MIN - card.gas_at_min
    read = GAS_AFTER_BELL_MIN + card.read_min
    bench = [(minute + shift, f"{minute:g}", what) for minute, what in card.schedule]
    lesson = [
        (0, "", "Bell. Read the safety list aloud, with a reason for each line."),
        (3, "", "Everybody keeps a prediction: lesson 00, or the paper form."),
        (read + 2, "", "Bring the file in, set the windows, read the effect with its range."),
        (max(PERIOD_MIN, read + LAST_MIN) - 5, "", "Exit ticket. One sentence from each group: what it shows, and what not."),
    ]
    return Period(tuple(sorted((*bench, *lesson), key=lambda row: row[0])), PERIOD_MIN - LAST_MIN - read)
