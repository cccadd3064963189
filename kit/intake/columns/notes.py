"""What people and the kit itself wrote beside the readings: a column of notes becomes remarks."""

from dataclasses import replace

import numpy as np

from kit.records import facts_and_remarks

MOST = 20


def keep_notes(table, place):
    """Say what a column of notes holds. In a file that `Run.save` wrote, the note gives back the run's name, kind and remarks."""
    cells = {
        int(table.lines[row]): cell for row in np.flatnonzero(table.columns[place].values != "") if (cell := table.columns[place].cell(row))
    }
    table = table.with_column(place, role="note")
    own = facts_and_remarks(next(iter(cells.values()), ""))
    if own:
        return replace(table.said(*own[1]), about=own[0])
    said = [f"Note in line {line}: '{cell[:80]}'." for line, cell in list(cells.items())[:MOST]]
    return table.said(*said, *([f"{len(cells) - MOST} more notes are left out."] if len(cells) > MOST else []))
