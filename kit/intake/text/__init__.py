"""From text to cells: layout, lines, columns."""

from kit.intake.text.cells import read_cells
from kit.intake.text.sniffing import sniff

__all__ = ["read_cells", "sniff"]
