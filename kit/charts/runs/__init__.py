"""What was measured in one run or two: the run itself, its effect, drift and rise, and a comparison."""

from kit.charts.runs.run import run_chart, thinned

__all__ = ["run_chart", "thinned"]
