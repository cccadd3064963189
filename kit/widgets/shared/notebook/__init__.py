"""How a notebook shows what the kit gives it: faults as a box, figures at once and with a table of their lines."""

from kit.widgets.shared.notebook.preparing import prepare_notebook
from kit.widgets.shared.notebook.showing import bundles, shown
from kit.widgets.shared.notebook.tables import figure_table

__all__ = ["bundles", "figure_table", "prepare_notebook", "shown"]
