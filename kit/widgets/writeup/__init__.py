"""Lesson 12: a claim under the hand, the rubric, and the report."""

from kit.widgets.writeup.claim import ClaimView, claim_view
from kit.widgets.writeup.marking import report_card, rubric

__all__ = ["ClaimView", "claim_view", "report_card", "rubric"]
