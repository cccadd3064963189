"""Pieces put together: whatever the size of the shares and the order in which they come, the table is the same."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kit.intake.text import cells
from kit.intake.text.gathering import Part
from kit.intake.given.source import Text
from kit.intake.text.gathering import Gathered
from kit.intake.text.gathering import Piece
from kit.intake.text.sniffing import sniff
from kit.intake.text.gathering import Tally

HEAD = "time (s),treated (°C),control (°C)\n"
ODD = ["# lamp moved\n", "\n", "7,Err,21.5\n", "7,21.5,\n"]


def piece(first, values, left_out=()):
    return Piece(np.arange(first, first + len(values), dtype=np.int32), [Part(np.array(values, float))], dict(left_out))


def test_gaps_between_shares_close_in_order_of_the_lines():
    got = Gathered(["n"], 9)
    got.put(6, [piece(9, [6, 7])])
    got.put(0, [piece(2, [1, 2]), piece(4, [], {"note": Tally(1, ((4, "# a"),))}), piece(5, [3], {"note": Tally(1, ((6, "# b"),))})])
    got.close()
    assert got.lines.tolist() == [2, 3, 5, 9, 10] and got.parts[0].values.tolist() == [1, 2, 3, 6, 7]
    assert got.left_out == {"note": Tally(2, ((4, "# a"), (6, "# b")))}


@given(st.lists(st.sampled_from(["even"] * 8 + ODD), min_size=30, max_size=120), st.integers(40, 400))
def test_the_size_of_the_shares_changes_nothing(kinds, size):
    lines = [f"{2 * n},{21 + n / 100:.2f},21.5\n" if kind == "even" else kind for n, kind in enumerate(["even"] * 3 + kinds)]
    text = Text("a.csv", (HEAD + "".join(lines)).encode())
    whole = cells.read_cells(text, sniff(text))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(cells, "SHARE_BYTES", size)
        patch.setattr(cells, "BLOCK_BYTES", size // 2)
        patch.setattr(cells, "QUICK_BYTES", 0)
        shared = cells.read_cells(text, sniff(text))
    assert shared.remarks == whole.remarks and (shared.lines == whole.lines).all()
    for one, two in zip(shared.columns, whole.columns):
        assert np.array_equal(one.values, two.values, equal_nan=True) and one.notes == two.notes and one.odd == two.odd
