"""What every view stands on: joined scripts and sheets, faults as words, figures and tables, and the picture of a run."""

from kit.widgets.shared.notebook import prepare_notebook
from kit.widgets.shared.picture import picture_of
from kit.widgets.shared.scripts import script, sheet
from kit.widgets.shared.showing import bundles, shown
from kit.widgets.shared.tables import figure_table
from kit.widgets.shared.telling import told
from kit.widgets.shared.view import LOOK, Grip, Pick, View, line, rows, starting

__all__ = [
    "Grip", "LOOK", "Pick", "View", "bundles", "figure_table", "line", "picture_of", "prepare_notebook", "rows", "script",
    "sheet", "shown", "starting", "told",
]  # fmt: skip
