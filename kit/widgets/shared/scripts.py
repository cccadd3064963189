"""The browser side of the widgets: small files of script, joined to the one module that a widget sends."""

from pathlib import Path

HERE = Path(__file__).parents[1]


def script(*names):
    """The text of these `.js` files in order, as one module. One of them holds `export default`."""
    return "\n".join((HERE / f"{name}.js").read_text(encoding="utf-8") for name in names)


def sheet(*names):
    """The text of these `.css` files in order."""
    return "\n".join((HERE / f"{name}.css").read_text(encoding="utf-8") for name in names)
