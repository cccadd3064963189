"""What a notebook does for the kit: a Fault is a friendly box and no red traceback, and a figure shows without delay."""

import sys
from functools import partial
from html import escape

from kit.faults import Fault
from kit.widgets.shared.notebook.showing import bundles

BOX = (
    '<div role="note" style="max-width:46rem;margin:4px;padding:12px 18px;border:1px solid #b58a2e;border-left-width:5px;border-radius:8px;'
    'background:#fdf3e1;color:#1f2328;font:15px/1.5 system-ui,sans-serif"><strong>This needs a change first.</strong><br>{}'
    '<br><span style="color:#4a5056">Change it, then press Shift and Enter together. '
    "In a lesson the cells below wait, too: then press Start this lesson, above.</span></div>"
)


def prepare_notebook():
    """Tell the notebook that runs this, if one does, how to show a Fault and a figure. Other exceptions keep their tracebacks."""
    shell = sys.modules["IPython"].get_ipython() if "IPython" in sys.modules else None
    if shell is None:
        return
    shell.set_custom_exc((Fault,), _show_fault)
    shell.display_formatter.ipython_display_formatter.for_type_by_name("plotly.graph_objs._figure", "Figure", partial(_show_figure, shell))


def _show_figure(shell, figure):
    for bundle in bundles(figure):
        shell.display_pub.publish(bundle)


def _show_fault(shell, _kind, fault, _trace, tb_offset=None):
    shell.display_pub.publish({"text/html": BOX.format(escape(str(fault))), "text/plain": str(fault)})
