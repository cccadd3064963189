"""Odd places decided: kept, flagged or left out, each with a reason that travels with the run."""

import numpy as np
import pytest

from kit.faults import Fault
from kit.intake.read import read_run

# Invented readings with one leap at 60 s and one at 120 s.
ROWS = [[10 * n, 21 + n / 100, 20 + n / 200] for n in range(30)]
ROWS[6][1], ROWS[12][2] = 27.0, 14.0
TEXT = "time (s),treated (°C),control (°C)\n" + "".join(",".join(map(str, row)) + "\n" for row in ROWS)


def test_each_place_gets_its_choice_and_reason_and_only_what_is_left_out_goes():
    run = read_run(TEXT)
    assert [place.column for place in run.odd_places()] == ["treated", "control"]
    after = run.decide({1: ("leave out", "the lead was touched"), 2: ("flag", "nobody saw why")})
    assert np.isnan(after.readings.treated[60]) and after.readings.control[120] == 14.0 and run.readings.treated[60] == 27.0
    assert after.remarks[-2:] == (
        "Left out: treated, at 1 min 0 s: leaps by 5.95 °C and back. Reason: the lead was touched.",
        "Kept with a flag: control, at 2 min 0 s: leaps by 6.05 °C and back. Reason: nobody saw why.",
    )
    assert [(each.choice, each.reason) for each in after.decisions] == [("leave out", "the lead was touched"), ("flag", "nobody saw why")]


@pytest.mark.parametrize(
    "decisions, message",
    [
        ({1: ("drop", "x")}, "An odd place can't be decided by 'drop'. Say 'keep', 'flag' or 'leave out'."),
        ({3: ("keep", "x")}, "There is no odd place number 3. Their numbers are 1 to 2, in the order of run.odd_places()."),
        (
            {1: ("leave out", " ")},
            "Leaving readings out needs a reason: what do you think happened there? For example: run.decide({1: ('leave out', 'lamp touched')}).",
        ),
    ],
)
def test_what_is_refused(decisions, message):
    with pytest.raises(Fault) as fault:
        read_run(TEXT).decide(decisions)
    assert str(fault.value) == message


def test_what_is_kept_may_be_kept_without_a_reason():
    after = read_run(TEXT).decide({1: ("keep", ""), 2: ("flag", "")})
    assert after.remarks[-2:] == (
        "Kept: treated, at 1 min 0 s: leaps by 5.95 °C and back.",
        "Kept with a flag: control, at 2 min 0 s: leaps by 6.05 °C and back.",
    )
