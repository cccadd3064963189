"""The views of lesson 10: three chips on seven causes, and four runs to spend beside the bars of what each cause can still be."""

from kit.widgets.causes.chips import lay_chips
from kit.widgets.causes.spending import spend_runs

__all__ = ["lay_chips", "spend_runs"]
