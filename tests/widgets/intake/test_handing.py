"""The chart block of a card: a usual run whole, a very long one thinned."""

import numpy as np

from kit.widgets.intake.handing import MOST_DRAWN, still
from tests.widgets.invented import invented_run


def drawn(readings):
    return np.frombuffer(still("chart", invented_run(readings=readings))["value"]["times"], "<f4")


def test_a_run_is_drawn_whole_up_to_what_a_browser_takes_well():
    assert len(drawn(MOST_DRAWN)) == MOST_DRAWN
    assert len(drawn(MOST_DRAWN + 1)) == MOST_DRAWN / 2 + 1 and drawn(MOST_DRAWN + 1)[-1] == 21.5 * 60
