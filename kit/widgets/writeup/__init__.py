"""Lesson 12: a claim under the hand, the rubric, the report, and handing in."""

from kit.widgets.writeup.claim import ClaimView, claim_view
from kit.widgets.writeup.handing import hand_in_card
from kit.widgets.writeup.marking import report_card, rubric

__all__ = ["ClaimView", "claim_view", "hand_in_card", "report_card", "rubric"]
