"""A lesson goes over to a learner's own run: the marker's picture, the number and the chart, without a cell run anew."""

from pathlib import Path

CHECKOUT = Path(__file__).parents[2]
SETUP = """import os, sys
sys.path.insert(0, {checkout!r})
os.chdir({folder!r})
from kit import chart, choose_run, example_run, mark_windows, watch
from kit.coursework import remember
example_run("slate-hand").save("harbour.csv")
remember("harbour.csv", {{}})"""
CODE = ['chosen = choose_run("00.basalt")\nchosen', "chosen.show(chart)", "marker = mark_windows(chosen)\nmarker", "watch(marker)"]


def test_marker_and_chart_go_over_to_the_run_chosen(page, open_notebook, run_all, axe, picture, tmp_path):
    open_notebook(page, [SETUP.format(checkout=str(CHECKOUT), folder=str(tmp_path)), *CODE])
    run_all(page)
    card = page.get_by_role("group", name="Which run?", exact=True)
    page.get_by_role("group", name="Windows of the run basalt").wait_for()
    card.get_by_label("my run harbour.csv").check()
    card.get_by_role("button", name="Work on this run").click()
    page.get_by_role("group", name="Windows of the run slate-hand").wait_for()
    assert page.locator(".kit-marker").count() == 1
    page.get_by_label("response end, minutes").fill("20")
    page.get_by_label("response end, minutes").press("Enter")
    page.wait_for_function("() => document.querySelector(\"[aria-label='response end']\").getAttribute('aria-valuenow') === '1200'")
    page.locator(".jp-OutputArea strong").filter(has_text="slate").wait_for()
    assert axe(page) == []
    card.scroll_into_view_if_needed()
    picture(page, "choose-run")
