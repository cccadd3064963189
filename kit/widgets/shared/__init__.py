"""What every view stands on: joined scripts and sheets, faults as words, figures and tables, and the picture of a run.

`scripts.py` joins scripts and sheets, `telling.py` makes words of faults, `line.js` asks Python. `page/` holds elements, their look and what a
hand takes hold of; `drawing/` scales and what is drawn over them; `run/` the picture of a run; `view/` the frame of a lesson's own view;
`notebook/` how a notebook shows faults and figures.
"""

from kit.widgets.shared.notebook import bundles, figure_table, prepare_notebook, shown
from kit.widgets.shared.run import picture_of
from kit.widgets.shared.scripts import script, sheet
from kit.widgets.shared.telling import told
from kit.widgets.shared.view import LOOK, Grip, Pick, View, line, rows, starting

__all__ = [
    "Grip", "LOOK", "Pick", "View", "bundles", "figure_table", "line", "picture_of", "prepare_notebook", "rows", "script",
    "sheet", "shown", "starting", "told",
]  # fmt: skip
