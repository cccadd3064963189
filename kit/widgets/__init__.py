"""Thin views: traits in, one pure call, chart and sentence out. A notebook that loads one is made ready for the kit's faults and figures."""

from kit.widgets.shared import prepare_notebook

prepare_notebook()
