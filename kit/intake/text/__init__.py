"""From bytes to cells: encoding, workbook, layout, lines, columns."""

from kit.intake.text.cells import read_cells
from kit.intake.text.decoding import decode
from kit.intake.text.sniffing import sniff
from kit.intake.text.textof import text_of

__all__ = ["decode", "read_cells", "sniff", "text_of"]
