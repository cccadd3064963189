"""The browser's windows for tests: a new one for each test, where it may reach, and how long a call to it may take."""

import asyncio
import os
import re
import shutil
import warnings
from contextlib import ExitStack, contextmanager, suppress

import pytest

from tests.browser.server import CHECKOUT

# Whatever is not on this machine is asked of a port where nobody listens. (Stopping each request by hand would switch the cache off.)
QUIET = ["--no-sandbox", "--disable-background-networking", "--disable-component-update", "--disable-sync", "--proxy-server=127.0.0.1:9"]
SIZES = {
    "page": {"viewport": {"width": 1280, "height": 800}},
    "phone": {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True},
    "tablet": {"viewport": {"width": 820, "height": 1180}, "has_touch": True},
}
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "chrome")
FAILED = pytest.StashKey()  # of a test: whether it has failed so far
CALL_S = 70  # above, what waits says itself that it was in vain
HERE = ("http://127.0.0.1:", "http://127.0.0.1/", "ws://127.0.0.1:", "data:", "blob:", "about:")
# JupyterLab asks each kernel for widgets through a comm; on a busy machine the answer comes after it has given up waiting.
LATE_ANSWER = "Comm not found for comm id"
# What a page showed before it was loaded anew stands there until the lesson has started again: its widgets went with the page.
OF_BEFORE = "widget model not found"
# A page left before its widgets are drawn: their package's renderer waits for its manager, which it has put away with the page. Nobody sees it.
LEFT_EARLY = "Cannot read properties of null (reading 'promise')"
# JupyterLab writes this of whatever it still waited for when a kernel ended or was started anew, such as a subshell, asked for at first.
ENDED_EARLY = "Canceled future for"
# The same of a save that was under way when an earlier test closed its notebook.
CLOSED_EARLY = "Disposed"
NOT_OURS = (LATE_ANSWER, OF_BEFORE, LEFT_EARLY, ENDED_EARLY, CLOSED_EARLY)  # said by the console or, if nobody caught it, by the page
# An error in which only scripts of JupyterLab's own had a part is told after the tests and fails none, but for test_lab.py's, which runs a lesson.
JUPYTERLABS, ANYBODY_ELSES = "/static/lab/", ("blob:", "/extensions/", "/kit/")
# Under this JupyterLab asks for what it remembers: every new page asks after each recent file, also one that an earlier test renamed. The kit
# asks for its own things elsewhere, and what it saves or uploads through JupyterLab is looked for by the tests themselves.
OF_JUPYTERLAB = f"{HERE[0]}[0-9]+/api/"
# End the kernels of what is open, or a server would gather one for every test, and close it, unsaved as it may be; a save under way then finds
# it closed, and its dialog (JupyterLab's `_handleError`) would lie over the next test's page. True once nothing is left, so that the next test
# finds a JupyterLab that nobody has used. Not waited for where the server is gone.
PUT_AWAY = """() => {
  const { shell } = window.jupyterapp, pause = ms => new Promise(done => setTimeout(done, ms));
  const empty = async () => {
    const open = [...shell.widgets('main')];
    await Promise.allSettled(open.map(each => each.sessionContext?.shutdown()));
    for (const each of open) {
      if (each.context) Object.assign(each.context, { _handleError: () => undefined }).model.dirty = false;
      each.close();
    }
    while (shell.currentWidget?.context) await pause(20);
    Object.keys(localStorage).filter(key => key.startsWith('kit:')).forEach(key => localStorage.removeItem(key));
    return !document.querySelector('.jp-Dialog');
  };
  return Promise.race([empty(), pause(10000).then(() => false)]);
}"""


@contextmanager
def calls_limited(seconds):
    """No call to the browser waits longer. By itself playwright gives up on a page's state in time, but never on a script's answer."""
    from playwright._impl._sync_base import SyncBase  # every call passes here; test_harness.py notices if one no longer does

    send = SyncBase._sync

    async def within(call):
        try:
            async with asyncio.timeout(seconds):
                return await call
        except TimeoutError:
            raise AssertionError(f"The browser has not answered this call in {seconds} s.") from None

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(SyncBase, "_sync", lambda base, call: send(base, within(call)))
        yield


class Gate:
    """Keeps what pages asked of other machines, and what the browser's console called an error."""

    def __init__(self):
        self.outside, self.complaints, self.jupyterlabs, self.ears = [], [], [], []

    def watch(self, page, console=True):
        self.listen(page.context, "request", lambda request: self.see(request.url))
        self.listen(page, "websocket", lambda socket: self.see(socket.url))
        if console:
            self.listen(page, "console", self.hear)
            self.listen(page, "pageerror", lambda error: self.complain(error.stack or str(error), error.stack or ""))

    def listen(self, source, event, ear):
        source.on(event, ear)
        self.ears.append((source, event, ear))

    def leave(self):
        """Hear nothing more: what JupyterLab calls an error while a kernel and its page end is nobody's."""
        while self.ears:
            source, event, ear = self.ears.pop()
            source.remove_listener(event, ear)

    def see(self, url):
        if not url.startswith(HERE):
            self.outside.append(url)

    def hear(self, message):
        if message.type == "error":
            where = message.location["url"]
            if not re.match(OF_JUPYTERLAB, where):
                self.complain(f"{message.text} ({where})", where)

    def complain(self, text, where):
        """Keep `text`, said or thrown at `where`: as a complaint, or as JupyterLab's own."""
        if any(known in text for known in NOT_OURS):
            return
        jupyterlabs = JUPYTERLABS in where and not any(each in text.replace(JUPYTERLABS, "") for each in ANYBODY_ELSES)
        (self.jupyterlabs if jupyterlabs else self.complaints).append(text)

    def check(self):
        assert not self.outside, f"the page asked other machines: {self.outside}"
        assert not self.complaints, f"the browser's console has errors: {self.complaints}"
        if self.jupyterlabs:
            warnings.warn(f"JupyterLab's own errors: {self.jupyterlabs}", stacklevel=2)


def patient(context):
    """Wait a minute for what a page should show, as a busy machine may take that long."""
    context.set_default_timeout(60_000)
    return context


@pytest.fixture(scope="session")
def chrome():
    """The path of a browser. Without one, tests are skipped by name on a person's machine and fail in CI."""
    found = os.environ.get("CHROME") or next(filter(None, map(shutil.which, BROWSERS)), None)
    if found is None:
        (pytest.fail if os.environ.get("CI") == "true" else pytest.skip)("needs a browser: none found on this machine")
    return found


@pytest.fixture(scope="session")
def browser(chrome):
    from playwright.sync_api import sync_playwright

    with calls_limited(CALL_S), sync_playwright() as playwright:
        window = playwright.chromium.launch(executable_path=chrome, args=QUIET)
        yield window
        window.close()


@pytest.fixture
def gate():
    """The gate of this test's own pages: anything it has kept fails the test at its end."""
    gate = Gate()
    yield gate
    gate.check()


@pytest.fixture(scope="session")
def kept(browser):
    """Windows in which JupyterLab stays loaded from test to test, by size: loading it takes most of a short test's time."""
    return {}


@pytest.fixture
def open_page(browser, gate, kept, request):
    """`open_page(console=True, **context)`: a new browser window behind the gate; with `keep`, the one kept under that name if there is."""
    pages = {}

    def open_(console=True, keep=None, **context):
        page = kept.pop(keep, None) or patient(browser.new_context(**context)).new_page()
        pages[page] = keep
        gate.watch(page, console)
        return page

    yield open_
    well = not (request.node.stash[FAILED] or gate.outside or gate.complaints)
    with ExitStack() as ends:
        for page, name in pages.items():
            ends.callback(put_away, page, name if well else None, kept)
            if not well:
                take_last_look(page, request)
        ends.callback(gate.leave)
        gate.check()


def put_away(page, name, kept):
    """End the page's kernels; keep the window under `name`, if it has one and JupyterLab is as it was at first, else close it."""
    with suppress(Exception):  # a page that is dead has no kernel to end
        if page.evaluate(PUT_AWAY) and name and name not in kept:
            page.emulate_media(media="null")
            page.set_viewport_size(SIZES[name]["viewport"])
            kept[name] = page
    if kept.get(name) is not page:
        page.context.close()


def take_last_look(page, request):
    """Keep what a failed test's page showed: ci-output/failed-NAME.png."""
    with suppress(Exception):  # a page that is dead or busy has said enough
        page.screenshot(path=CHECKOUT / "ci-output" / f"failed-{request.node.name}.png", timeout=10_000)


@pytest.fixture
def rough_page(open_page):
    return open_page(console=False, **SIZES["page"])


@pytest.fixture
def page(sized):
    return sized("page")


@pytest.fixture
def phone(sized):
    return sized("phone")


@pytest.fixture
def tablet(sized):
    return sized("tablet")


@pytest.fixture
def sized(open_page, request):
    """A window of this size: a kept one for a test that opens notebooks, a new one for any other."""
    return lambda size: open_page(keep=size if "open_notebook" in request.fixturenames else None, **SIZES[size])
