"""What every test shares: one BLAS thread (small matrices, many processes), properties that try the same cases every time, without a
deadline, and three attempts for what a busy machine can make late."""

import os

import pytest
from _pytest.runner import runtestprotocol
from hypothesis import settings

for variable in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(variable, "1")

settings.register_profile("kit", deadline=None, derandomize=True)
settings.load_profile("kit")

ATTEMPTS = 3


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_protocol(item, nextitem):
    """A test that measures time or drives a browser fails only if it fails three times: what else the machine does only adds to a time.

    What went wrong before is kept as the test's property `failed`; `kit test` names the tests that have one.
    """
    if item.get_closest_marker("alone") is None and item.get_closest_marker("browser") is None:
        return None
    item.ihook.pytest_runtest_logstart(nodeid=item.nodeid, location=item.location)
    for _ in range(ATTEMPTS):
        reports = runtestprotocol(item, nextitem=nextitem, log=False)
        if not any(report.failed for report in reports):
            break
        item.user_properties.append(("failed", "\n".join(report.longreprtext for report in reports if report.failed)))
    for report in reports:
        item.ihook.pytest_runtest_logreport(report=report)
    item.ihook.pytest_runtest_logfinish(nodeid=item.nodeid, location=item.location)
    return True
