"""A real JupyterLab, started as a learner starts it, and a real browser. Nothing may be asked of any other machine.

`lab` is one server for all tests; `start_lab()` one more, for a test that kills it. `page` (1280 x 800), `phone` (390 x 844, touch) and
`tablet` (820 x 1180, touch) fail their test on any outside request and any error in the browser's console; `rough_page` lets console
errors pass, for tests that kill a kernel or a server. `open_notebook(page, "00-your-first-run.ipynb")`, or with a list of code cells, shows
it; `run_all(page)` runs it and waits; `restart_kernel(page)` starts it afresh. `axe(page)` gives what axe-core finds in the outputs,
`picture(page, name)` keeps a screenshot in ci-output. Every test in this folder is marked `browser`. No call to the browser waits for ever.
"""

import asyncio
import os
import re
import shutil
import signal
import subprocess
import sys
import time
import urllib.parse
from contextlib import ExitStack, contextmanager
from itertools import count
from pathlib import Path

import psutil
import pytest

CHECKOUT = Path(__file__).parents[2]
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "chrome")
QUIET = ["--no-sandbox", "--disable-background-networking", "--disable-component-update", "--disable-sync"]
ADDRESS = re.compile(r"http://127\.0\.0\.1:\d+/\S+")
MINUTE_MS = 60_000
CALL_S = 70  # above, what waits says itself that it was in vain
# JupyterLab asks each kernel for widgets through a comm; on a busy machine the answer comes after it has given up waiting.
LATE_ANSWER = "Comm not found for comm id"

# Run > Run All Cells does nothing at all while the kernel is not connected, though it is shown as idle: so wait for the connection.
CONNECTED = """async () => {
  const pause = ms => new Promise(done => setTimeout(done, ms));
  const connected = async () => {
    while (!window.jupyterapp?.shell.currentWidget?.sessionContext) await pause(50);
    const session = window.jupyterapp.shell.currentWidget.sessionContext;
    await session.ready;
    while (session.session?.kernel?.connectionStatus !== 'connected' || session.session.kernel.status !== 'idle') await pause(50);
    return session.session.kernel.id;
  };
  const late = pause(60000).then(() => { throw new Error('the kernel was not connected and idle within a minute'); });
  return Promise.race([connected(), late]);
}"""
# Not the printed [1]: a cell whose code is hidden shows none.
ALL_DONE = """() => {
  const cells = [...window.jupyterapp.shell.currentWidget.content.widgets];
  const code = cells.filter(cell => cell.model.type === 'code' && cell.model.sharedModel.getSource());
  return code.length > 0 && code.every(cell => cell.model.executionCount && cell.model.executionState !== 'running');
}"""
DO = "command => window.jupyterapp.commands.execute(command)"
RESTART = "() => window.jupyterapp.shell.currentWidget.sessionContext.restartKernel()"


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items):
    for item in items:
        if item.path.is_relative_to(Path(__file__).parent):
            item.add_marker(pytest.mark.browser)


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


@contextmanager
def calls_limited(seconds):
    """No call to the browser waits longer. By itself playwright gives up after 30 s on a page's state, but never on a script's answer."""
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


class Lab:
    """A JupyterLab started by the kit's own command in the folder `work`; `pid` is the server's process."""

    def __init__(self, work, log):
        self.work = Path(work)
        command = [sys.executable, "-m", "kit", "lab", "--no-browser", "--work", str(work)]
        with open(log, "w") as file:  # exposing the app: so that a test can ask the page what it would otherwise have to guess
            self.process = subprocess.Popen(
                [*command, "--", "--LabApp.expose_app_in_browser=True"], cwd=CHECKOUT, stdout=file, stderr=subprocess.STDOUT
            )
        self.pid, self.log = self.process.pid, Path(log)
        self.landing = self._address()
        self.token = self.landing.split("token=")[1]

    def _address(self):
        for _ in range(1200):
            if found := ADDRESS.search(self.log.read_text()):
                return found.group()
            assert self.process.poll() is None, self.log.read_text()
            time.sleep(0.05)
        raise AssertionError(f"JupyterLab was not up in a minute: {self.log.read_text()}")

    def url(self, name):
        """Where the notebook `name` of the work folder is shown. `reset`, or the last page's notebook would come back."""
        return f"{self.landing.split('/lab')[0]}/lab/tree/{urllib.parse.quote(name)}?reset&token={self.token}"

    def kernel_pid(self, kernel_id):
        """The process of a kernel, by the id that `open_notebook` gives."""
        children = psutil.Process(self.pid).children(recursive=True)
        return next(child.pid for child in children if any(kernel_id in word for word in child.cmdline()))

    def kill(self):
        """End the server as a power cut would."""
        self.process.kill()
        self.process.wait(60)

    def stop(self):
        """End the server as Ctrl-C does. Its exit status; kernels end with it."""
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGINT)
        return self.process.wait(60)


@pytest.fixture(scope="session")
def start_lab(tmp_path_factory):
    """`start_lab(work)` gives a further Lab, on a folder of its own unless one is named; all are ended with the tests."""
    with ExitStack() as ends:  # each is ended, even if another refuses to

        def start(work=None):
            lab = Lab(work or tmp_path_factory.mktemp("course") / "my-work", tmp_path_factory.mktemp("log") / "server.log")
            ends.callback(lab.stop)
            return lab

        yield start


@pytest.fixture(scope="session")
def lab(start_lab):
    return start_lab()


class Gate:
    """Lets a page reach this machine only. Keeps what it asked of others, and what the browser's console called an error."""

    def __init__(self):
        self.outside, self.complaints = [], []

    def watch(self, page, console=True):
        page.context.route("**/*", self.pass_or_stop)
        page.on("websocket", lambda socket: None if socket.url.startswith("ws://127.0.0.1:") else self.outside.append(socket.url))
        if console:
            page.on("console", self.hear)
            page.on("pageerror", lambda error: self.complaints.append(str(error)))

    def pass_or_stop(self, route):
        if route.request.url.startswith(("http://127.0.0.1:", "data:", "blob:")):
            return route.continue_()
        self.outside.append(route.request.url)
        return route.abort()

    def hear(self, message):
        if message.type == "error" and not message.text.startswith(LATE_ANSWER):
            self.complaints.append(message.text)


SCRIPTS = "http://127.0.0.1/scripts/"
EMPTY = "<!doctype html><html lang='en'><meta name='viewport' content='width=device-width'><title>scripts</title>"


@pytest.fixture(scope="module")
def loader(browser):
    """A page where the browser's own module loader finds the kit's scripts as they lie: `import("/scripts/shared/scales.js")`."""
    page = browser.new_page()
    page.route(f"{SCRIPTS}**", _serve_script)
    page.goto(SCRIPTS)
    yield page
    page.close()


def _serve_script(route):
    name = route.request.url.removeprefix(SCRIPTS)
    if not name:
        return route.fulfill(content_type="text/html", body=EMPTY)
    return route.fulfill(content_type="text/javascript", path=CHECKOUT / "kit" / "widgets" / name)


# Stands for anywidget's model in a page without JupyterLab: what is asked goes to the Python object in the test, what it changed comes back.
MODEL = """state => {
  const heard = [];
  const take = news => { Object.assign(state, news); heard.filter(([name]) => name.split(':')[1] in news).forEach(([, act]) => act()); };
  return {
    get: name => state[name],
    on: (names, act) => names.split(' ').forEach(name => heard.push([name, act])),
    off: (names, act) => heard.splice(0, heard.length, ...heard.filter(each => each[1] !== act)),
    send: async asked => take(await window.askPython(asked)), take,
  };
}"""
SHOW = """async ({ script, css, state, theme }) => {
  document.body.dataset.jpThemeLight = theme === 'light';
  document.body.style.background = theme === 'light' ? '#fff' : '#111';
  document.body.style.setProperty('--jp-layout-color0', theme === 'light' ? '#fff' : '#111');
  document.head.append(Object.assign(document.createElement('style'), { textContent: css }));
  const module = await import(`/scripts/${script}.js`), el = document.body.appendChild(document.createElement('div'));
  window.model = (MODEL)(state);
  window.leave = module.default.render({ model: window.model, el });
}"""


@pytest.fixture
def show_view():
    """`show_view(page, view, "energy/energy", theme="light")`: a lesson's view in a page of its own, without JupyterLab, in half a second.

    The script is loaded as it lies; what the hand does there reaches `view`, the real object in the test, and its answer is drawn.
    """

    def show(page, view, script, theme="light"):
        def ask(asked):
            view._handle_custom_msg(asked, [])
            return _state_of(view)

        page.route(f"{SCRIPTS}**", _serve_script)
        page.expose_function("askPython", ask)
        page.goto(SCRIPTS)
        page.evaluate(SHOW.replace("MODEL", MODEL), {"script": script, "css": view._css, "state": _state_of(view), "theme": theme})

    return show


@pytest.fixture(scope="session")
def finger():
    """`finger(page, grip, across=0, down=0)` puts a finger on the middle of `grip` and drags it by so many pixels."""

    def drag(page, grip, across=0, down=0):
        box, touch = grip.bounding_box(), page.context.new_cdp_session(page)
        x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        places = [{"x": x + across * part / 6, "y": y + down * part / 6} for part in range(7)]
        touch.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": places[:1]})
        for place in places[1:]:
            touch.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": [place]})
        touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})

    return drag


def _state_of(view):
    return {name: getattr(view, name) for name in ("title", "help", "grips", "values", "answer")}


@contextmanager
def shared_page(browser, lab, name, code):
    """A page for all tests of a file, with a new notebook of these code cells, behind a gate of its own."""
    gate = Gate()
    with browser.new_context(viewport={"width": 1280, "height": 800}) as context:
        page = context.new_page()
        gate.watch(page)
        page.goto(lab.url(written(lab.work / name, code)))
        page.wait_for_selector(".jp-Notebook .jp-Cell", timeout=MINUTE_MS)
        yield page
    assert gate.outside == [] and gate.complaints == []


@pytest.fixture
def gate():
    """The gate of this test's pages: anything it had to stop or hear fails the test at its end."""
    gate = Gate()
    yield gate
    assert gate.outside == [] and gate.complaints == []


@pytest.fixture
def open_page(browser, gate):
    """`open_page(console=True, **context)`: a new browser window behind the gate."""
    contexts = []

    def open_(console=True, **context):
        contexts.append(browser.new_context(**context))
        page = contexts[-1].new_page()
        gate.watch(page, console)
        return page

    yield open_
    for context in contexts:
        context.close()


@pytest.fixture
def page(open_page):
    return open_page(viewport={"width": 1280, "height": 800})


@pytest.fixture
def rough_page(open_page):
    return open_page(console=False, viewport={"width": 1280, "height": 800})


@pytest.fixture
def phone(open_page):
    return open_page(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)


@pytest.fixture
def tablet(open_page):
    return open_page(viewport={"width": 820, "height": 1180}, has_touch=True)


@pytest.fixture
def open_notebook(lab):
    """`open_notebook(page, what, lab=lab)` shows a notebook with its kernel connected and gives the kernel's id.

    `what` is the name of a file in the work folder or a list of code cells, which become a new notebook there.
    """
    numbers = count()

    def open_(page, what, lab=lab):
        name = what if isinstance(what, str) else written(lab.work / f"cells-{time.monotonic_ns()}-{next(numbers)}.ipynb", what)
        page.goto(lab.url(name))
        page.wait_for_selector(".jp-Notebook .jp-Cell", timeout=MINUTE_MS)
        return page.evaluate(CONNECTED)

    return open_


def written(path, cells):
    import nbformat  # with all it loads, a second that collecting the tests need not take

    book = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(cell) for cell in cells])
    book.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3", "language": "python"}
    nbformat.write(book, path)
    return path.name


@pytest.fixture(scope="session")
def run_all():
    """`run_all(page)` does Run > Run All Cells on the notebook shown and waits until every cell has run."""

    def run(page):
        page.evaluate(CONNECTED)
        page.evaluate(DO, "notebook:run-all-cells")
        page.wait_for_function(ALL_DONE, timeout=MINUTE_MS)

    return run


@pytest.fixture(scope="session")
def restart_kernel():
    """`restart_kernel(page)` does Kernel > Restart Kernel without its question, and waits for the connection."""

    def restart(page):
        page.evaluate(RESTART)
        return page.evaluate(CONNECTED)

    return restart


@pytest.fixture(scope="session")
def axe():
    """`axe(page)`: (rule, HTML) of each thing that axe-core 4 finds at fault in what the kit draws; JupyterLab's own page is not ours."""
    from axe_playwright_python.sync_playwright import Axe

    def violations(page, include=".jp-OutputArea-output"):
        found = Axe().run(page, context={"include": [[include]]}).response["violations"]
        return [(each["id"], node["html"]) for each in found for node in each["nodes"]]

    return violations


@pytest.fixture(scope="session")
def picture():
    """`picture(page, "marker")` keeps a screenshot as ci-output/marker.png and gives its path."""
    folder = CHECKOUT / "ci-output"

    def take(page, name, **how):
        folder.mkdir(exist_ok=True)
        page.screenshot(path=folder / f"{name}.png", **how)
        return folder / f"{name}.png"

    return take
