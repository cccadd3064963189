"""What every test shares: one BLAS thread (small matrices, many processes), properties that try the same cases every time, without a
deadline; a limit of time that nothing escapes; and word of the tests that run when a round has long been silent."""

import faulthandler
import os
import signal
import sys
import threading
import time

import pytest
from _pytest.runner import runtestprotocol
from hypothesis import settings

for variable in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(variable, "1")

if signal.getsignal(signal.SIGINT) == signal.SIG_IGN:  # a shell starts what works in the background so; whatever tests start would be deaf to Ctrl-C
    signal.signal(signal.SIGINT, signal.default_int_handler)

settings.register_profile("kit", deadline=None, derandomize=True)
settings.load_profile("kit")

ATTEMPTS = 3
LIMIT, LAST_WORDS = pytest.StashKey(), pytest.StashKey()


def pytest_addoption(parser):
    parser.addini("silence", "After how many seconds without an ended test the running ones are named.", default="180")


def pytest_configure(config):
    config.stash[LAST_WORDS] = os.dup(sys.__stderr__.fileno())  # the terminal, also while a test's own words are caught
    if not hasattr(config, "workerinput"):  # the process that hears of all tests, wherever they run
        config.pluginmanager.register(Watch(float(config.getini("silence")), config.stash[LAST_WORDS]))


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_protocol(item, nextitem):
    """A test that measures time fails only if it fails three times: what else the machine does only adds to a time.

    Each attempt starts from nothing: all fixtures, also those that tests share, are put away before it. What went wrong before is kept
    as the test's property `failed`; `kit test` names the tests that have one. A test of behaviour has one attempt.
    """
    if item.get_closest_marker("alone") is None:
        return None
    item.ihook.pytest_runtest_logstart(nodeid=item.nodeid, location=item.location)
    for attempt in range(ATTEMPTS):
        if attempt:
            start_the_clock(item)
        reports = runtestprotocol(item, nextitem=None, log=False)
        if not any(report.failed for report in reports):
            break
        item.user_properties.append(("failed", "\n".join(report.longreprtext for report in reports if report.failed)))
    for report in reports:
        item.ihook.pytest_runtest_logreport(report=report)
    item.ihook.pytest_runtest_logfinish(nodeid=item.nodeid, location=item.location)
    return True


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_teardown(item):
    """A test that failed has stopped its clock (pytest-timeout does so, for debuggers), and putting away can wait for ever too."""
    start_the_clock(item)


def start_the_clock(item):
    """Start both clocks of the test anew: pytest-timeout's and pytest's own, which ends the process of a test that doesn't hear the first."""
    if LIMIT in item.stash:
        item.config.hook.pytest_timeout_cancel_timer(item=item)
        item.config.hook.pytest_timeout_set_timer(item=item, settings=item.stash[LIMIT])
        last = float(item.config.getini("faulthandler_timeout"))
        faulthandler.dump_traceback_later(last, exit=True, file=item.config.stash[LAST_WORDS])


@pytest.hookimpl(tryfirst=True, optionalhook=True)
def pytest_timeout_set_timer(item, settings):
    item.stash[LIMIT] = settings


class Watch:
    """Names the running tests, with their seconds, as often as none has ended for `silence` seconds."""

    def __init__(self, silence, told):
        self.silence, self.told, self.heard, self.began = silence, told, threading.Event(), {}

    def pytest_sessionstart(self):
        threading.Thread(target=self.listen, daemon=True).start()

    def pytest_runtest_logstart(self, nodeid):
        self.began[nodeid] = time.monotonic()

    def pytest_runtest_logreport(self, report):
        if report.when not in ("setup", "call"):  # put away, or its process died
            self.began.pop(report.nodeid, None)
        self.heard.set()

    def listen(self):
        while True:
            if not self.heard.wait(self.silence):
                os.write(self.told, self.sentence().encode())
            self.heard.clear()

    def sentence(self):
        now, running = time.monotonic(), dict(self.began)
        tests = [f"  {test}, for {now - began:.0f} s" for test, began in running.items()]
        none = ["  none: tests are being collected, or all have ended"]
        return "\n".join([f"\nNo test has ended for {self.silence:g} s. Running:", *(tests or none), ""])
