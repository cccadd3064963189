"""What every analysis stands on: which readings are usable, and the usual cautions."""

from kit.analysis.basis.safetylist import safety
from kit.analysis.basis.usable import both_vessels, NO_READING, record_of, refuse_question, why_no_number, why_stuck

__all__ = ["both_vessels", "NO_READING", "record_of", "refuse_question", "safety", "why_no_number", "why_stuck"]
