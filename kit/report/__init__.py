"""The report: one page that opens without a network, a package from which anybody can work every number out again, and what is handed in."""

from kit.report.again import open_report
from kit.report.handin import hand_in, HandIn, look_at_hand_in
from kit.report.markdown import from_markdown
from kit.report.make import make_report, Report, write_whole
from kit.report.pack import NUMBERS, zipped
from kit.report.package import open_package, Package
from kit.report.page import document, SAFETY
from kit.report.pieces import bullets, element, paragraphs, said, section, table

__all__ = [
    "bullets", "document", "element", "from_markdown", "hand_in", "HandIn", "look_at_hand_in", "make_report", "NUMBERS", "open_package", "open_report",
    "Package", "paragraphs", "Report", "SAFETY", "said", "section", "table", "write_whole", "zipped",
]  # fmt: skip
