"""Charts in JupyterLab's dark theme: turned over with it, and as large as before."""

from tests.browser.conftest import CHECKOUT

CELLS = [
    f"import sys; sys.path.insert(0, {str(CHECKOUT)!r})\nfrom kit import chart, example_run, predict",
    "chart(example_run('basalt'))",
    "predict('00.warmer')",
]
HEIGHT = "() => document.querySelector('.js-plotly-plot').clientHeight"
FILTER = "() => getComputedStyle(document.querySelector('.js-plotly-plot')).filter"
TWO_FRAMES = "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"


def test_a_chart_follows_the_dark_theme_and_keeps_its_height(page, open_notebook, run_all, show_theme, picture):
    open_notebook(page, CELLS)
    run_all(page)
    page.wait_for_selector(".js-plotly-plot .main-svg", state="attached")
    page.wait_for_selector(".kit-card")
    page.wait_for_function(f"() => ({HEIGHT})() > 300")
    page.evaluate(TWO_FRAMES)
    height, turned = page.evaluate(HEIGHT), "invert(0.93) hue-rotate(180deg)"
    for theme, look in (("Dark", turned), ("Light", "none")):
        show_theme(page, theme)
        page.evaluate(TWO_FRAMES)
        picture(page, f"chart-{theme.lower()}")
        assert page.evaluate(FILTER) == look
        assert page.evaluate(HEIGHT) == height
