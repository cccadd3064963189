"""Thin views: traits in, one pure call, chart and sentence out. A notebook that loads one shows the kit's faults as boxes."""

from kit.widgets.faultbox import show_faults_as_boxes

show_faults_as_boxes()
