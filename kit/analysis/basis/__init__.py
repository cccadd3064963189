"""What every analysis stands on: which readings are usable, how a result explains itself, the usual cautions."""

from kit.analysis.basis.explaining import effect_explained, steadiness_explained
from kit.analysis.basis.safetylist import safety
from kit.analysis.basis.usable import both_vessels, NO_READING, record_of, refuse_question, why_no_number

__all__ = [
    "both_vessels", "effect_explained", "NO_READING", "record_of", "refuse_question", "safety", "steadiness_explained", "why_no_number",
]  # fmt: skip
