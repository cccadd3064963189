"""The views of lesson 10: three chips on seven causes, and four runs to spend beside the bars of what each cause can still be."""

from kit.widgets.causes.board import board_of, effect_row, moving_sentence, ranges_of
from kit.widgets.causes.chips import CausesCard, lay_chips
from kit.widgets.causes.spending import spend_runs

__all__ = ["board_of", "CausesCard", "effect_row", "lay_chips", "moving_sentence", "ranges_of", "spend_runs"]
