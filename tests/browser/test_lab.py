"""What `lab` opens, how it ends, and that the harness of these tests would notice a fault."""

import psutil
import pytest

from tests.browser.server import CHECKOUT

FIRST = ".jp-Notebook .jp-Cell"
SIDES = "([left, right]) => window.jupyterapp.shell.leftCollapsed === left && window.jupyterapp.shell.rightCollapsed === right"
LISTED = "names => [...document.querySelectorAll('.jp-DirListing-itemText')].map(each => each.textContent).join() === names.join()"
READY = "() => window.jupyterapp?.shell.currentWidget?.sessionContext?.session?.kernel?.connectionStatus === 'connected'"
SAID = "texts => [...document.querySelectorAll('.jp-OutputArea-output')].map(each => each.innerText).join('|') === texts.join('|')"
MINUTE_MS = 60_000
LESSONS = sorted(path.name for path in (CHECKOUT / "lessons").glob("*.ipynb"))


@pytest.fixture(scope="module")
def lab(start_lab):
    """A server of its own: other tests leave notebooks and files in the shared one, and a learner's first start has none."""
    return start_lab()


def land(page, lab):
    """Open the address that `lab` prints; the kernel starts by itself."""
    page.goto(lab.landing)
    page.wait_for_selector(FIRST, timeout=MINUTE_MS)
    page.wait_for_function(READY, timeout=MINUTE_MS)
    page.wait_for_selector("h1:has-text('Your first run')")


def test_it_lands_on_lesson_00_and_asks_nothing(page, start_lab, picture):
    land(page, start_lab())  # never seen by a narrow page, whose closed file list the server would remember
    page.wait_for_function(SIDES, arg=[False, True])
    page.wait_for_function(LISTED, arg=LESSONS)
    assert page.locator(".jp-Dialog, .Toastify__toast").count() == 0
    picture(page, "lab-1280x800")


def test_on_a_phone_the_file_list_is_closed_and_the_lesson_fills_the_screen(phone, lab, picture):
    land(phone, lab)
    phone.wait_for_function(SIDES, arg=[True, True])
    phone.wait_for_function("() => document.querySelector('.jp-Notebook').clientWidth > 350")
    assert phone.evaluate("document.documentElement.scrollWidth") == 390
    picture(phone, "lab-390x844")


def test_a_kernel_has_one_blas_thread_finds_the_kit_and_talks_in_secret_through_files(page, lab, open_notebook, run_all):
    open_notebook(page, ["import os, json, kit", "print([os.environ[n] for n in ('OPENBLAS_NUM_THREADS', 'OMP_NUM_THREADS')])", SPOKEN])
    run_all(page)
    page.wait_for_function(SAID, arg=["['1', '1']\n", "True ipc\n"])


SPOKEN = "it = json.load(open(get_ipython().kernel.config.IPKernelApp.connection_file)); print('curve_publickey' in it, it['transport'])"


def test_a_second_server_takes_another_port_and_ctrl_c_ends_it_with_its_kernels(page, lab, start_lab, open_notebook):
    other = start_lab()
    assert other.landing.split("/lab")[0] != lab.landing.split("/lab")[0]
    kernel = psutil.Process(other.kernel_pid(open_notebook(page, ["1"], lab=other)))
    page.goto("about:blank")
    assert other.stop() == 0
    kernel.wait(30)
    assert other.log.read_text().endswith(f"JupyterLab has ended. Your work is in {other.work}\n")
    assert {path.name for path in other.work.iterdir() if path.suffix != ".ipynb"} <= {".jupyter", ".ipynb_checkpoints"}


def test_a_killed_server_leaves_no_kernel_behind(rough_page, start_lab, open_notebook):
    lab = start_lab()
    kernel = psutil.Process(lab.kernel_pid(open_notebook(rough_page, ["1"], lab=lab)))
    lab.kill()
    kernel.wait(30)


def test_the_address_needs_its_token(open_page, lab):
    page = open_page(console=False)
    assert page.goto(lab.landing.split("?")[0]).url.split("?")[0].endswith("/login")


def test_the_gate_stops_and_names_what_asks_for_another_machine(browser, gate, lab):
    strict = type(gate)()
    with browser.new_context() as context:
        page = context.new_page()
        strict.watch(page)
        page.goto(lab.landing)
        page.evaluate("() => fetch('http://elsewhere.invalid/x').catch(() => 0)")
        with page.expect_event("pageerror"):
            page.evaluate("() => { setTimeout(() => { throw new Error('ours') }); }")
        with page.expect_event("console", lambda message: message.text == "said"):
            page.evaluate("() => console.error('said')")
    assert strict.outside == ["http://elsewhere.invalid/x"]
    assert [text.split("\n")[0] for text in strict.complaints if "ours" in text] == ["Error: ours"]
    assert any(text.startswith("said (") for text in strict.complaints)


def test_only_an_error_of_jupyterlabs_own_scripts_alone_is_not_the_kits(gate):
    own = "Error: x\n  at f (http://127.0.0.1:8888/static/lab/core.js:1:2)"
    shared = f"{own}\n  at g (http://127.0.0.1:8888/lab/extensions/twin-vessels/static/strip.js:3:4)"
    strict = type(gate)()
    for text in (own, shared, "Error: y\n  at render (blob:http://127.0.0.1:8888/1:2:3)"):
        strict.complain(text, text)
    assert strict.jupyterlabs == [own] and strict.complaints[0] == shared and len(strict.complaints) == 2


def test_axe_finds_a_fault_where_there_is_one(page, open_notebook, run_all, axe):
    open_notebook(page, ["from IPython.display import HTML; HTML('<button></button>')"])
    run_all(page)
    assert [rule for rule, _ in axe(page)] == ["button-name"]
