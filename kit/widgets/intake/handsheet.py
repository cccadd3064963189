"""A sheet for a run that is read by eye, once a minute: every entry is on the disk at once and back when the sheet is opened again."""

from pathlib import Path

from kit.faults import Fault
from kit.intake import code_for, doubts, read_sheet, run_of_sheet, UNITS, write_sheet
from kit.coursework import safe_name
from kit.widgets.cards import bullets, text
from kit.widgets.intake.handing import RunCard, code_line, typing_sheet
from kit.words import listed

HELP = "Read both thermometers each minute and type what you see. Enter goes on to the next box. Every entry is kept at once in {file}."
COLUMNS = ("minute", "treated", "control")
KEYS = "Keys: Enter or Tab to the next box, Shift and Enter back, arrows up and down within a column."


def hand_sheet(name="hand-run", *, unit="degC"):
    """A sheet to type a run into: minute, treated, control. `sheet.run` is its `Run`, `sheet.code` the line that reads it.

    It is kept as `name`.csv beside the notebook. `unit` is 'degC' or 'degF'. A decimal comma will do; unlikely entries are questioned
    and kept. A Fault if another file has that name.
    """
    if unit not in UNITS:
        raise Fault(f"A hand sheet has no unit {unit!r}. Choose {listed(map(repr, UNITS), 'or')}.")
    return HandSheet(Path(safe_name(f"{str(name).removesuffix('.csv')}.csv")), unit)


class HandSheet(RunCard):
    """A table to type into, kept in the file `path`. Made by `hand_sheet`."""

    def __init__(self, path, unit):
        self.path, self.unit = path, unit
        self.rows = read_sheet(path, unit)
        super().__init__(f"sheet:{path.name}", f"A run read by eye: {path.stem}", self._drawn, entered=self._entered)

    @property
    def run(self):
        """The `Run` as typed so far. A Fault names the first entry to put right, or says what is missing."""
        return run_of_sheet(self.path, self.unit)

    @property
    def code(self):
        """The line of code that reads the same run."""
        return code_for(self.path, {})

    def _entered(self, values):
        rows = [tuple(map(str, row)) for row in values["rows"]]
        write_sheet(self.path, rows, self.unit)
        self.rows = rows
        return f"Kept in {self.path.name}."

    def _drawn(self):
        found = doubts(self.rows, self.unit)
        asked = [bullets("doubts", "Please look again", [str(each) for each in found])] if found else []
        about, keys = text("help", HELP.format(file=self.path.name)), text("keys", KEYS, tone="quiet")
        return [about, self._sheet(found), keys, *asked, *self._outcome()]

    def _sheet(self, found):
        value = {"rows": [list(row) for row in self.rows], "odd": [[each.row, each.column] for each in found]}
        return typing_sheet("sheet", "One row for each reading", COLUMNS, value, "entered", UNITS[self.unit])

    def _outcome(self):
        if not self.rows:
            return []
        try:
            return [text("run", str(self.run), tone="quiet"), code_line("code", "The line that reads it", self.code)]
        except Fault as fault:
            return [text("run", f"Not a run yet. {fault}", tone="quiet")]
