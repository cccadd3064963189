"""The report: one page that opens without a network, a package from which anybody can work every number out again, and what is handed in."""

from kit.report.again import open_report
from kit.report.handin import hand_in, HandIn, look_at_hand_in
from kit.report.make import make_report, Report, write_whole
from kit.report.package import NUMBERS, open_package, Package, zipped
from kit.report.page import bullets, document, element, from_markdown, paragraphs, SAFETY, said, section, table

__all__ = [
    "bullets", "document", "element", "from_markdown", "hand_in", "HandIn", "look_at_hand_in", "make_report", "NUMBERS", "open_package", "open_report",
    "Package", "paragraphs", "Report", "SAFETY", "said", "section", "table", "write_whole", "zipped",
]  # fmt: skip
