"""Which kit and which packages made a report."""

import tomllib
from importlib.metadata import PackageNotFoundError, version

from kit.bootstrap.places import CHECKOUT

KIT, PACKAGES = "twin-vessels", ("numpy", "scipy", "pandas", "statsmodels", "plotly")


def versions():
    """{package: version} of the kit and of those whose arithmetic it uses."""
    return {KIT: kit_version(), **{name: version(name) for name in PACKAGES}}


def kit_version():
    """The kit's version: from where it was installed, or from the folder it runs in."""
    try:
        return version(KIT)
    except PackageNotFoundError:
        return tomllib.loads((CHECKOUT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["version"]
