"""Markdown as pieces of a page: markup stays text, links stay words, pictures are drawn in."""

import pytest

from kit.faults import Fault
from kit.report import from_markdown


def test_markdown_runs_nothing_and_names_a_picture_that_is_missing(tmp_path):
    html = from_markdown("# A\n\n<script>alert(1)</script>\n\n[away](https://example.org) <!-- ![x](y) -->\n\n| a | b |\n| --- | --- |\n| c | |\n")
    assert "<script" not in html and "href" not in html and '<th scope="col">' in html and "<td></td>" in html
    assert "<th></th>" not in from_markdown("| | b |\n| --- | --- |\n| c | d |\n")
    with pytest.raises(Fault, match="The picture none.svg is not there"):
        from_markdown("![a drawing](none.svg)", tmp_path)
