"""The page: its pieces, what it says of one run and of all of them, and the writer's own words."""

from kit.report.page.markdown import from_markdown
from kit.report.page.page import document, page, SAFETY
from kit.report.page.pieces import bullets, element, paragraphs, said, section, table
from kit.report.page.words import questions_open

__all__ = ["bullets", "document", "element", "from_markdown", "page", "paragraphs", "questions_open", "SAFETY", "said", "section", "table"]
