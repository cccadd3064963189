"""From text to cells: layout, lines, columns."""

from kit.intake.text.cells import read_cells
from kit.intake.text.labelled import as_table
from kit.intake.text.prompts import with_whole_stamps, without_prompts
from kit.intake.text.sniffing import sniff
from kit.intake.text.splitting import cell_spans

__all__ = ["as_table", "cell_spans", "read_cells", "sniff", "with_whole_stamps", "without_prompts"]
