"""The package beside the page: packed, opened without trusting anything in it, and the notebook that works its numbers out again."""

from kit.report.package.notebook import notebook
from kit.report.package.pack import NOTEBOOK, NUMBERS, numbers_of, numbers_together, packed, PAGE, record_of, with_class, zipped
from kit.report.package.package import open_package, Package

__all__ = [
    "notebook", "NOTEBOOK", "NUMBERS", "numbers_of", "numbers_together", "open_package", "Package", "packed", "PAGE", "record_of", "with_class",
    "zipped",
]  # fmt: skip
