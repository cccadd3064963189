"""What a class thought before and after: question by question, and the gain between the two."""

from kit.analysis.concepts.checking import concept_check, ConceptCheck, INVENTED_SHEETS, ItemCount

__all__ = ["concept_check", "ConceptCheck", "INVENTED_SHEETS", "ItemCount"]
