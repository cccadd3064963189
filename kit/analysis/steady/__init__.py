"""Is it steady enough to start?"""

from kit.analysis.steady.steadiness import check_steady, Steadiness

__all__ = ["check_steady", "Steadiness"]
