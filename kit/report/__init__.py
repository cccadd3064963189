"""The report: one page that opens without a network, a package from which anybody can work every number out again, and what is handed in."""

from kit.report.again import open_report
from kit.report.handin import hand_in, HandIn, look_at_hand_in
from kit.report.make import make_report, Report

__all__ = ["hand_in", "HandIn", "look_at_hand_in", "make_report", "open_report", "Report"]
