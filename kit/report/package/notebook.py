"""The notebook that works a report's numbers out again: read, mark, effect, curve."""

import json


KERNEL = {"kernelspec": {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"}}
ABOUT = "# The numbers of this report, worked out again\n\nUnpack the whole zip, then run the cells from the top. Each line reads what the report kept."
CELLS = (
    "from kit.report import open_report",
    'report = open_report(".")\nreport',
    "report.evidence[0].run",
    "report.evidence[0].windows",
    'report.findings[0].of("effect")',
    'report.findings[0].of("curve")',
)


def notebook(findings):
    """The notebook's JSON (nbformat 4.5); without a run it says so and has no cells that need one."""
    code = CELLS if findings else CELLS[:2]
    cells = [_cell("about", "markdown", ABOUT), *(_cell(f"step-{count}", "code", source) for count, source in enumerate(code, start=1))]
    return json.dumps({"cells": cells, "metadata": KERNEL, "nbformat": 4, "nbformat_minor": 5}, ensure_ascii=False, indent=1)


def _cell(name, kind, source):
    code = {"execution_count": None, "outputs": []} if kind == "code" else {}
    return {"id": name, "cell_type": kind, "metadata": {}, "source": source, **code}
