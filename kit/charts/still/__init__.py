"""A chart as a still picture (SVG): the same figure as on the screen, for paper and for pages without a network."""

from kit.charts.still.picture import svg

__all__ = ["svg"]
