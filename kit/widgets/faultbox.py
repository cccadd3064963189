"""In a notebook a Fault is a friendly box with its sentence, and no red traceback."""

import sys
from html import escape

from kit.faults import Fault

BOX = (
    '<div role="note" style="max-width:46rem;margin:4px;padding:12px 18px;border:1px solid #b58a2e;border-left-width:5px;border-radius:8px;'
    'background:#fdf3e1;color:#1f2328;font:15px/1.5 system-ui,sans-serif"><strong>This needs a change first.</strong><br>{}'
    '<br><span style="color:#4a5056">The cells below wait. Change it, then choose Run, Run All Cells again.</span></div>'
)


def show_faults_as_boxes():
    """Tell the notebook that runs this, if one does, to show each Fault as a box. Any other exception keeps its traceback."""
    shell = sys.modules["IPython"].get_ipython() if "IPython" in sys.modules else None
    if shell is not None:
        shell.set_custom_exc((Fault,), _show)


def _show(shell, _kind, fault, _trace, tb_offset=None):
    shell.display_pub.publish({"text/html": BOX.format(escape(str(fault))), "text/plain": str(fault)})
