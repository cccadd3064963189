"""The report: one page that opens without a network, and a package from which anybody can work every number out again."""

from kit.report.again import open_report
from kit.report.make import make_report, Report

__all__ = ["make_report", "open_report", "Report"]
