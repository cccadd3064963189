"""A run beside the reference run, within the margin that was kept before anybody looked."""

from kit.analysis.comparison import compare
from kit.analysis.effect import paired_effect, suggest_windows
from kit.coursework import kept_marks, margin_c
from kit.examples import reference_run
from kit.faults import Fault
from kit.settings import class_settings
from kit.widgets.cards import keeping_of

FIRST = "Choose your margin first, in Step {step}: the largest difference that you would still call the same."


def against_reference(run, *, margin=None):
    """The `Comparison` of a run with the bundled reference run. `margin` (°C): without it, the one kept in lesson 08, or the class's.

    The windows are the learner's marks on the run, or the kit's. A Fault while no margin has been kept, or where a run gives no windows.
    """
    chosen = margin_c(keeping_of("08").kept) or class_settings()["margin_c"] if margin is None else margin
    if chosen is None:
        raise Fault(FIRST.format(step=6))
    return compare(_effect(run, kept_marks(run)), _effect(reference_run(), None), margin=chosen)


def _effect(run, windows):
    return paired_effect(run, windows or suggest_windows(run))
