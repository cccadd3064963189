"""The packages of each group, read from where they are stated."""

import hashlib
import tomllib

from kit.bootstrap.places import CHECKOUT


def requirements(group, checkout=CHECKOUT):
    """What pip is asked for: "lab" is what a learner needs, "test" that and the test packages."""
    stated = (line.strip() for line in (checkout / "requirements.txt").read_text(encoding="utf-8").splitlines())
    lab = [line for line in stated if line and not line.startswith("#")]
    return lab + test_packages(checkout) if group == "test" else lab


def test_packages(checkout):
    project = tomllib.loads((checkout / "pyproject.toml").read_text(encoding="utf-8"))
    return project["project"]["optional-dependencies"]["test"]


def fingerprint(group, checkout=CHECKOUT):
    """Changes when a requirement of the group does."""
    return hashlib.sha256("\n".join(requirements(group, checkout)).encode()).hexdigest()
