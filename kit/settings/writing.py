"""Writing `class-settings.toml`: every line that may stand there, with what it means; one that was not said stands as a comment."""

from kit.settings.lines import LINES, TABLES, written

HEAD = """\
# What holds for this class. Every lesson, plan, chart and report reads this file; a line that begins with # holds nothing.
# Put it beside the lessons, or into a folder above them: the nearest one counts. Without any, the values behind the # hold, margin_c apart.
# A line that can't be used is named in the lessons, and the rest holds. settings.ipynb writes this file without typing.
"""


def settings_text(said):
    """The whole file as text, for the settings that were `said` (values by name)."""
    return HEAD + "".join(_table(table, heading, said) for table, heading in TABLES.items())


def _table(table, heading, said):
    lines = [_line(line, said) for line in LINES if line.table == table]
    return f"\n# {heading}\n[{table}]\n" + "".join(lines)


def _line(line, said):
    value = said.get(line.name, line.example if line.usual is None else line.usual)
    return f"{'' if line.name in said else '# '}{line.name} = {written(value)}  # {line.words}: {line.allowed}\n"
