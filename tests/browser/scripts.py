"""The kit's scripts in the browser without JupyterLab: by the browser's own module loader, and a view with its Python object."""

from contextlib import ExitStack

import pytest

from tests.browser.server import CHECKOUT

SCRIPTS = "http://127.0.0.1/scripts/"
EMPTY = "<!doctype html><html lang='en'><meta name='viewport' content='width=device-width'><title>scripts</title>"


@pytest.fixture(scope="module")
def loader(browser):
    """A page where the browser's own module loader finds the kit's scripts as they lie: `import("/scripts/shared/drawing/scales.js")`."""
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
    with ExitStack() as ends:

        def show(page, view, script, theme="light"):
            def ask(asked):
                view._handle_custom_msg(asked, [])
                return _state_of(view)

            ends.enter_context(page.route(f"{SCRIPTS}**", _serve_script))
            ends.enter_context(page.expose_function("askPython", ask))
            page.goto(SCRIPTS)
            page.evaluate(SHOW.replace("MODEL", MODEL), {"script": script, "css": view._css, "state": _state_of(view), "theme": theme})

        yield show


def _state_of(view):
    return {name: getattr(view, name) for name in ("title", "help", "grips", "values", "answer", "unit")}
