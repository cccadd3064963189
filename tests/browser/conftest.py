"""A real JupyterLab, started as a learner starts it, and a real browser. Nothing may be asked of any other machine.

`lab` is one server for all tests; `start_lab()` one more, for a test that kills it. `page` (1280 x 800), `phone` (390 x 844, touch) and
`tablet` (820 x 1180, touch) fail their test on any outside request and any error in the browser's console; `rough_page` lets console
errors pass, for tests that kill a kernel or a server. `open_notebook(page, "00-your-first-run.ipynb")`, or with a list of code cells, shows
it; `run_all(page)` runs it and waits; `lesson(page)` shows a fresh copy of the module's NAME, which runs by itself; `started(page)` waits for
that; `restart_kernel(page)` starts it afresh; `show_theme(page, "Dark")` changes JupyterLab's theme. JupyterLab stays loaded in such a window
from test to test; kernels, notebooks and drafts go. `axe(page)` gives what axe-core finds in the outputs, `picture(page, name)` keeps a
screenshot in ci-output. Every test in this folder is marked `browser`. No call to the browser waits for ever.
"""

import shutil
import time
from contextlib import ExitStack, closing, contextmanager
from itertools import count
from pathlib import Path

import pytest

from kit.coursework import LESSONS

# Fixtures count where a conftest has their names.
from tests.browser.scripts import loader, show_view
from tests.browser.server import CHECKOUT, Lab, written
from tests.browser.windows import FAILED, PUT_AWAY, SIZES, Gate, patient
from tests.browser.windows import browser, chrome, gate, kept, open_page, page, phone, rough_page, sized, tablet

MINUTE_MS = 60_000

# Run > Run All Cells does nothing at all while the kernel is not connected, though it is shown as idle: so wait for the connection.
# After a kernel's death JupyterLab may hold a line to nobody (status unknown, seen in 1 of 8). The kit lays it anew for a lesson; here it is as a person does.
CONNECTED = """async () => {
  const pause = ms => new Promise(done => setTimeout(done, ms));
  const connected = async () => {
    while (!window.jupyterapp?.shell.currentWidget?.sessionContext) await pause(50);
    const session = window.jupyterapp.shell.currentWidget.sessionContext;
    await session.ready;
    const kernel = () => session.session?.kernel;
    for (let round = 1; kernel()?.connectionStatus !== 'connected' || kernel().status !== 'idle'; round += 1) {
      if (round % 120 === 0 && kernel()?.status === 'unknown') (round > 120 ? session.restartKernel() : kernel().reconnect()).catch(() => undefined);
      await pause(50);
    }
    return kernel().id;
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
OPEN = """async path => {
  const { commands, shell } = window.jupyterapp, opened = await commands.execute('docmanager:open', { path });
  shell.activateById(opened.id);
  await opened.context.ready;
}"""
# A heading goes to the window's top; the two frames are for what is drawn when it comes into view.
INTO_VIEW = """async head => {
  head.scrollIntoView();
  for (let i = 0; i < 2; i++) await new Promise(requestAnimationFrame);
}"""
WRITTEN = "words => [...document.querySelectorAll('textarea')].some(box => box.value === words)"
# The cards of a lesson come a little after its cells have run.
DRAWN = "() => document.querySelectorAll('.kit-card').length >= 3"
# Not waited for: where JupyterLab has just saved by itself it asks which of the two shall hold, and that dialog stays unseen while somebody
# writes. Answers are kept by the kernel, whatever becomes of the notebook's own file.
SAVE = "() => { window.jupyterapp.commands.execute('docmanager:save'); }"
DO = "command => window.jupyterapp.commands.execute(command)"
# JupyterLab's splash lies over the page while a theme is loaded, and fades; a second change in its last 200 ms makes it throw.
CHANGE = "theme => window.jupyterapp.commands.execute('apputils:change-theme', { theme: `JupyterLab ${theme}` })"
CHANGED = "theme => document.body.dataset.jpThemeLight === String(theme === 'Light') && !document.querySelector('#jupyterlab-splash')"
RESTART = "() => window.jupyterapp.shell.currentWidget.sessionContext.restartKernel()"


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items):
    for item in items:
        if item.path.is_relative_to(Path(__file__).parent):
            item.add_marker(pytest.mark.browser)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item):
    report = yield
    item.stash[FAILED] = item.stash.get(FAILED, False) or report.failed
    return report


@pytest.fixture(scope="session")
def start_lab(tmp_path_factory):
    """`start_lab(work, *more)` gives a further Lab, on a folder of its own unless one is named, with more words; all are ended with the tests."""
    with ExitStack() as ends:  # each is ended, even if another refuses to

        def start(work=None, *more):
            lab = Lab(work or tmp_path_factory.mktemp("course") / "my-work", tmp_path_factory.mktemp("log") / "server.log", *more)
            ends.callback(lab.stop)
            return lab

        yield start


@pytest.fixture(scope="session")
def lab(start_lab):
    return start_lab()


@pytest.fixture
def own_copy(lab, request):
    """`own_copy(path)` copies a notebook into a folder of this test's own, which the server shows, and gives the folder."""

    def copy(path):
        folder = lab.work / f"{request.path.stem}-{request.node.name}".replace("[", "-").rstrip("]")
        folder.mkdir()
        shutil.copy(path, folder)
        return folder

    return copy


@pytest.fixture
def lesson(own_copy, open_notebook, started, request):
    """`lesson(page)` opens a fresh copy of the module's NAME in `lesson.folder`, the test's own; it starts by itself. The kernel's id."""
    name = request.module.NAME
    folder = own_copy(LESSONS / name)

    def open_(page):
        kernel = open_notebook(page, f"{folder.name}/{name}")
        started(page)
        page.wait_for_function(DRAWN)
        return kernel

    open_.folder = folder
    return open_


@contextmanager
def shared_page(browser, lab, name, code):
    """A page for all tests of a file, with a new notebook of these code cells, behind a gate of its own."""
    gate = Gate()
    with closing(patient(browser.new_context(**SIZES["page"]))) as context:
        page = context.new_page()
        gate.watch(page)
        page.goto(lab.url(written(lab.work / name, code)))
        page.wait_for_selector(".jp-Notebook .jp-Cell", timeout=MINUTE_MS)
        yield page
        gate.check()
        gate.leave()
        page.evaluate(PUT_AWAY)


@pytest.fixture
def open_notebook(lab):
    """`open_notebook(page, what, lab=lab)` shows a notebook, and only it, with its kernel connected, and gives the kernel's id.

    `what` is the name of a file in the work folder or a list of code cells, which become a new notebook there.
    """
    numbers = count()

    def open_(page, what, lab=lab):
        name = what if isinstance(what, str) else written(lab.work / f"cells-{time.monotonic_ns()}-{next(numbers)}.ipynb", what)
        if page in lab.pages and page.url.startswith(f"{lab.origin}/"):
            page.evaluate(PUT_AWAY)
            page.evaluate(OPEN, name)
        else:
            page.goto(lab.url(name))
            lab.pages.add(page)
        page.wait_for_selector(".jp-Notebook .jp-Cell", timeout=MINUTE_MS)
        return page.evaluate(CONNECTED)

    return open_


@pytest.fixture(scope="session")
def run_all():
    """`run_all(page)` does Run > Run All Cells on the notebook shown and waits until every cell has run."""

    def run(page):
        page.evaluate(CONNECTED)
        page.evaluate(DO, "notebook:run-all-cells")
        page.wait_for_function(ALL_DONE, timeout=MINUTE_MS)

    return run


@pytest.fixture(scope="session")
def started():
    """`started(page)` waits until a lesson, which starts by itself when it is opened or its kernel is new, has run."""
    return lambda page: page.wait_for_selector(".jp-NotebookPanel[data-kit-lesson=ready]:not(.lm-mod-hidden)", timeout=MINUTE_MS)


@pytest.fixture(scope="session")
def show_theme():
    """`show_theme(page, "Dark")` changes JupyterLab's theme, and "Light" changes it back, and waits until nothing more moves for it."""

    def show(page, theme):
        page.evaluate(CHANGE, theme)
        page.wait_for_function(CHANGED, arg=theme)

    return show


@pytest.fixture(scope="session")
def restart_kernel():
    """`restart_kernel(page)` does Kernel > Restart Kernel without its question, and waits for the connection."""

    def restart(page):
        page.evaluate(RESTART)
        return page.evaluate(CONNECTED)

    return restart


@pytest.fixture(scope="session")
def press_at_once():
    """`press_at_once(element, "ArrowUp", "ArrowUp")`: keys as close as a held key gives them. One by one, a busy machine puts rests between."""
    keydown = "(each, keys) => keys.forEach(key => each.dispatchEvent(new KeyboardEvent('keydown', {key, bubbles: true, cancelable: true})))"
    return lambda element, *keys: element.evaluate(keydown, keys)


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
