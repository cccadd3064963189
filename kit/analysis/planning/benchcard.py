"""A card for the bench and a sheet for the record, one page each, with a group's own numbers."""

from dataclasses import dataclass
from html import escape

from kit.analysis.basis import safety
from kit.analysis.planning.dosing import GasDose
from kit.faults import Fault
from kit.physics import bounded
from kit.settings import class_settings, or_class
from kit.units import unit
from kit.words import account, plain, table_html

SOON_MIN, EVERY_MIN = 5, 1
READ = "R: read the result. Touch nothing for the minute before."
START = (0, "Lamp and logger on. From here on nobody moves lamp, vessels or thermometers.")
STEPS = (  # minutes from the gas
    (-2, "Is the difference steady? If not, wait."),
    (-1, "Baseline: touch nothing."),
    (0, "Gas into the treated vessel. At the same time air, through a like tube and through water, into the control."),
    (2, "Take both tubes out, slowly. Nobody leans over the vessels."),
    (SOON_MIN, "First look, in case the gas leaves early."),
)


@dataclass(frozen=True)
class BenchCard:
    """What one run needs at the bench. `dose`: the gas, which goes in at minute `gas_at_min`. `read_min`: minutes after it at which the result
    is read. `cautions`: the safety list. `group`: whose it is, '' if that is filled in by hand."""

    dose: GasDose
    gas_at_min: float
    read_min: float
    cautions: tuple
    group: str = ""

    @property
    def schedule(self):
        """(minute, what to do), from the lamp's start."""
        end, steps = self.gas_at_min + self.read_min, [(self.gas_at_min + minute, what) for minute, what in STEPS]
        return (START, *(step for step in steps if step[0] < end), (end, READ), (end + 1, "Save the record. Lamp off, let it cool. Air the room."))

    def __str__(self):
        return f"Bench card: {self.dose.made_from}, gas at minute {self.gas_at_min:g}, R at minute {self.gas_at_min + self.read_min:g}."

    def explain(self):
        """Where its numbers come from."""
        return account(str(self.dose), f"R stands {self.read_min:g} min after the gas. The minutes before are common practice, no source.")

    def _repr_html_(self):
        steps = [(f"☐ minute {minute:g}", what) for minute, what in self.schedule]
        needs = [("gas", f"{self.dose.made_from} in {self.dose.setup.water_ml:g} mL of water"), ("share of CO2", self.dose.share)]
        rows = [*needs, *steps, *(("safety", caution) for caution in self.cautions)]
        return f'<div style="overflow-x: auto">{table_html(rows, str(self))}<div style="break-before: page">{self._sheet()}</div></div>'

    def _sheet(self):
        """The record sheet: a line for each minute, to be filled in by hand."""
        heads = "".join(f'<th scope="col">{escape(head)}</th>' for head in ("minute", f"treated ({unit()})", f"control ({unit()})", "what happened"))
        last = int(self.gas_at_min + self.read_min + 1)
        box = '<td style="min-width: 3.5em; height: 1.6em; border: 1px solid currentColor"></td>'
        lines = "".join(f'<tr><th scope="row">{minute}</th>{3 * box}</tr>' for minute in range(0, last + 1, EVERY_MIN))
        title = f"Record sheet. Group: {escape(self.group) or 8 * '_'}  Date: {8 * '_'}  Treated stands left / right"
        caption = f'<caption style="text-align:left"><strong>{title}</strong></caption>'
        return f'<table class="kit-table">{caption}<thead><tr>{heads}</tr></thead><tbody>{lines}</tbody></table>'

    def to_dict(self):
        """What JSON can keep."""
        parts = {name: plain(getattr(self, name)) for name in ("gas_at_min", "read_min", "schedule", "cautions")}
        return {"made_from": self.dose.made_from, **parts}


def bench_card(dose, read_min=None, group=""):
    """`BenchCard` for a `GasDose` and the minutes after the gas at which the result is read (None: as the class does), for the `group` named. A
    Fault for what can't be."""
    if not isinstance(dose, GasDose):
        raise Fault("A bench card needs a dose first: bench_card(gas_dose(tablets=4), read_min=10).")
    read_min = or_class(read_min, "read_after_min")
    bounded(read_min, "R", 1, 120, "min")
    cautions = safety("lamp", "alone", "glass", "way out", "ventilate", "eyes", "tablets")
    return BenchCard(dose, class_settings()["gas_at_min"], float(read_min), cautions, str(group))
