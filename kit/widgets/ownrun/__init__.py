"""A learner's own runs: chosen in a lesson, and worked through from the file to the report."""

from kit.widgets.ownrun.choosing import choose_run
from kit.widgets.ownrun.page import own_run

__all__ = ["choose_run", "own_run"]
