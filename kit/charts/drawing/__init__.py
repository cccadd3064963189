"""How every chart is drawn: its panels, its marks and labels, its look, and the unit that the class reads."""

from kit.charts.drawing.ranges import ranges_chart
from kit.charts.drawing.sheet import band, dots, end_label, level, line, Panel, ranged, reach, remark, row_axis, row_label, sheet, upright
from kit.charts.drawing.style import CONTROL, DIFFERENCE, faint, GRID, INK, KIT, LINES, MARKS, PAPER, QUIET, TREATED

__all__ = [
    "band", "CONTROL", "DIFFERENCE", "dots", "end_label", "faint", "GRID", "INK", "KIT", "level", "line", "LINES", "MARKS", "Panel", "PAPER",
    "QUIET", "ranged", "ranges_chart", "reach", "remark", "row_axis", "row_label", "sheet", "TREATED", "upright",
]  # fmt: skip
