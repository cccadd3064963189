"""The intake view, the hand sheet and the live view in a real JupyterLab, by mouse, drop and keys alone."""

import shutil
import time
from pathlib import Path

import pytest

from kit import example_run, read_run
from tests.browser.conftest import CONNECTED, DO, shared_page

CHECKOUT = Path(__file__).parents[2]
KELVIN = CHECKOUT / "datasets" / "six-loggers" / "5-pipe-kelvin.txt"
SETUP = """import os, sys, threading
sys.path.insert(0, {checkout!r})
os.makedirs({folder!r}, exist_ok=True)
os.chdir({folder!r})
from kit import bring_in, follow, hand_sheet, read_run
from kit.widgets.live import following
following.UNSEEN_S = 1"""
# Leaves a file behind once the live view has ended.
SPY = """def spy():
    live._thread.join()
    open("ended", "w").close()
spying = threading.Thread(target=spy, daemon=True)
spying.start()"""
# Ends the live view of the test before: one that ended later would write into the next test's folder.
END_LIVE = """async () => {
  const { kernel } = window.jupyterapp.shell.currentWidget.sessionContext.session;
  const code = 'if "live" in globals(): live._stopped.set(); spying.join()';
  return (await kernel.requestExecute({ code }).done).content.status;
}"""
CODE = 'run = read_run("5-pipe-kelvin.txt", treated="Probe 1 [K]")'
LOGGED = "Time (s),Treated (°C),Control (°C)\n0,21.4,21.0\n10,21.5,21.1\n"
HOW_MANY = "() => window.jupyterapp.shell.currentWidget.content.widgets.length"
DROP = """([name, text]) => {
  const given = new DataTransfer(), zone = document.querySelector('.kit-drop');
  given.items.add(new File([text], name));
  for (const kind of ['dragover', 'drop']) zone.dispatchEvent(new DragEvent(kind, {dataTransfer: given, bubbles: true, cancelable: true}));
}"""
WIDER = """() => [...document.querySelectorAll('.kit-card')].flatMap(card => [...card.querySelectorAll('*')]
  .filter(each => !each.closest('.kit-scroll') && each.getBoundingClientRect().right > card.getBoundingClientRect().right + 1)
  .map(each => each.outerHTML.slice(0, 80)))"""
DARK = "() => { document.body.dataset.jpThemeLight = 'false'; }"  # as the dark theme does; the theme itself would stay for other tests
TOO_LARGE = 'This file has more than 8 MiB. Copy it beside the notebook, then write its name in the cell: bring_in("name.csv").'


def cells(folder, *more):
    return [SETUP.format(checkout=str(CHECKOUT), folder=str(folder)), *more]


@pytest.fixture(scope="module")
def desk(browser, lab):
    """One page with the three views, and the folder of their files."""
    folder = lab.work / "brought"
    views = ["bring_in()", "sheet = hand_sheet('slate')\nsheet", "live = follow('logger.csv', every_s=0.1)\nlive", SPY]
    with shared_page(browser, lab, "brought.ipynb", cells(folder, *views)) as page:
        yield page, folder


@pytest.fixture
def fresh(desk, run_all):
    """The page of `desk` as if its notebook were run for the first time, and the emptied folder with a logger's file in it."""
    page, folder = desk
    page.evaluate(CONNECTED)
    page.evaluate(DO, "notebook:clear-all-cell-outputs")
    assert page.evaluate(END_LIVE) == "ok"
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    (folder / "logger.csv").write_text(LOGGED, "utf-8")
    run_all(page)
    page.wait_for_function("() => document.querySelectorAll('.kit-card').length === 3")
    return page, folder


def card(page, title):
    return page.locator(".kit-card").filter(has_text=title)


def says(where, part, words):
    where.locator(part).filter(has_text=words).first.wait_for(timeout=30_000)


def until(condition):
    deadline = time.monotonic() + 30
    while not condition():
        assert time.monotonic() < deadline, "nothing came in 30 s"
        time.sleep(0.05)


def settle(page, view):
    """Choose the first answer to the first question by keys alone. The other vessel is then the only thermometer left."""
    says(view, "legend", "Which column is the control vessel")
    view.get_by_role("group", name="Which column is the treated vessel").locator("input").first.focus()
    page.keyboard.press("Space")


def test_a_file_is_chosen_settled_kept_and_read_by_the_code_shown(fresh, axe, picture, run_all):
    (page, folder), view = fresh, card(fresh[0], "Bring in a run")
    count = page.evaluate(HOW_MANY)
    view.locator(".kit-drop input").set_input_files(KELVIN)
    says(view, ".kit-feedback", "2 things are open")
    picture(page, "bring-in-open")
    assert axe(page) == []
    settle(page, view)
    says(view, ".kit-kept", "Run 5-pipe-kelvin (measured): 130 readings over 21.5 min")
    view.get_by_role("button", name="Keep this run").focus()
    page.keyboard.press("Enter")
    says(view, "pre", CODE)
    assert axe(page) == []
    picture(page, "bring-in-kept")
    view.locator(".kit-still").scroll_into_view_if_needed()
    picture(page, "bring-in-chart")
    assert (folder / KELVIN.name).read_bytes() == KELVIN.read_bytes()
    made = {"read_run": lambda name, **named: read_run(folder / name, **named)}
    exec(view.locator("pre").inner_text(), made)
    assert len(made["run"].readings) == 130
    run_all(page)
    says(view, "pre", CODE)
    for key in ("b", "d", "d", "ArrowDown"):
        view.locator(".kit-drop input").press(key)
    assert page.evaluate(HOW_MANY) == count


def test_a_bad_file_gets_its_sentence_and_text_in_it_stays_text(fresh):
    page, view = fresh[0], card(fresh[0], "Bring in a run")
    page.evaluate(DROP, ["<b>page</b>.csv", "<html><img src=x onerror=alert(1)></html>"])
    says(view, ".kit-fault", "This is a web page saved under another name. Go back and download or export the table itself, as CSV.")
    page.evaluate(DROP, ["odd.csv", "time (s),<img src=x> treated (°C),control (°C)\n0,21,21\n10,21,21\n20,22,21\n"])
    says(view, "th", "<img src=x>")
    assert page.locator(".kit-card img").count() == 0
    page.evaluate(DROP, ["huge.csv", "x" * (8 * 2**20 + 1)])
    says(view, ".kit-drop p", TOO_LARGE)


def test_a_pasted_table_is_read_and_kept(fresh, axe, picture):
    (page, folder), view = fresh, card(fresh[0], "Bring in a run")
    table = "time (s)\ttreated\tcontrol\n0\t21.4\t21.0\n10\t21.5\t21.1\n"
    view.get_by_role("button", name="Read the pasted table").click()
    says(view, ".kit-status", "Paste a table into the box first.")
    view.get_by_label("Or paste a table here, with its line of names:").focus()
    page.evaluate("table => document.execCommand('insertText', false, table)", table)
    view.get_by_role("button", name="Read the pasted table").click()
    says(view, "legend", "No unit is written for")
    assert axe(page) == []
    picture(page, "bring-in-pasted")
    view.locator(".kit-choice input").first.check()
    view.get_by_role("button", name="Keep this run").click()
    says(view, "pre", 'run = read_run("pasted-table.txt", unit=')
    assert (folder / "pasted-table.txt").read_text("utf-8") == table


def test_an_odd_place_is_decided_with_a_reason_by_keys_and_the_effect_stands_there_both_ways(fresh, axe, picture):
    (page, folder), view = fresh, card(fresh[0], "Bring in a run")
    readings = example_run("basalt").readings[["treated", "control"]].round(2)
    readings.iloc[-60, 0] += 6
    table = readings.rename(columns={"treated": "treated (°C)", "control": "control (°C)"}).to_csv(index_label="time (s)")
    page.evaluate(DROP, ["leap.csv", table])
    says(view, ".kit-text, p", "leaps by 6")
    view.get_by_role("radio", name="Leave it out").focus()
    page.keyboard.press("Space")
    view.get_by_label("Because").focus()
    page.keyboard.type("the lead was touched")
    view.get_by_role("button", name="Decide", exact=True).focus()
    page.keyboard.press("Enter")
    says(view, "p", "Without what you left out")
    says(view, "li", "Reason: the lead was touched.")
    assert axe(page) == []
    view.get_by_text("Without what you left out").scroll_into_view_if_needed()
    picture(page, "bring-in-decided")
    view.get_by_role("button", name="Keep this run").click()
    says(view, "pre", "run = run.decide({1: ('leave out', 'the lead was touched')})")


def test_a_run_read_by_eye_is_typed_by_keys_and_is_back_on_reopening(fresh, axe, picture, run_all):
    (page, folder), sheet = fresh, card(fresh[0], "A run read by eye")
    sheet.get_by_label("treated, minute 0, °C").focus()
    for word in ("21,4", "21,0", "23,5", "23", "214", "24,1", "25,9", "25"):
        page.keyboard.type(word)
        page.keyboard.press("Enter")
    says(sheet, "li", "Minute 2, treated: 214 °C is unusual under a lamp. Is it a slip? If not, leave it: it counts.")
    assert page.evaluate("document.activeElement.getAttribute('aria-label')") == "treated, minute 4, °C"
    says(sheet, ".kit-quiet", "Run slate (measured): 4 readings over 3.0 min, one every 60 s.")
    typed = ["0,21.4,21.0", "1,23.5,23", "2,214,24.1", "3,25.9,25"]
    until(lambda: (folder / "slate.csv").read_text("utf-8").splitlines()[1:] == typed)
    assert axe(page) == []
    sheet.scroll_into_view_if_needed()
    picture(page, "hand-sheet")
    run_all(page)
    page.wait_for_function("() => document.querySelectorAll('.kit-sheet input')[10]?.value === '25.9'")
    says(sheet, ".kit-quiet", "Run slate (measured): 4 readings over 3.0 min, one every 60 s.")


def test_the_live_view_follows_a_file_beside_other_cells_and_stops(fresh, axe, picture):
    (page, folder), live = fresh, card(fresh[0], "Following logger.csv")
    says(live, ".kit-quiet", "0.2 min recorded, 2 readings.")
    with open(folder / "logger.csv", "a", encoding="utf-8") as file:
        file.writelines(f"{10 * k},{21.5 + k % 7 / 50:.2f},{21 + k % 5 / 50:.2f}\n" for k in range(2, 90))
    says(live, ".kit-quiet", "14.8 min recorded, 90 readings.")
    says(live, ".kit-text", "Is the difference steady?")
    assert axe(page) == []
    live.scroll_into_view_if_needed()
    picture(page, "live")
    live.get_by_role("button", name="Stop").click()
    says(live, ".kit-fault", "What came is kept. Run this cell again to go on.")
    assert (folder / "received" / "logger.csv").read_bytes() == (folder / "logger.csv").read_bytes()


def test_the_live_view_ends_when_its_output_is_cleared(fresh):
    page, folder = fresh
    says(card(page, "Following logger.csv"), ".kit-quiet", "2 readings.")
    assert not (folder / "ended").exists()
    page.evaluate(DO, "notebook:clear-all-cell-outputs")
    until((folder / "ended").exists)


def test_a_phone_in_the_dark_has_room_for_it(phone, open_notebook, run_all, axe, picture, tmp_path):
    open_notebook(phone, cells(tmp_path, f"bring_in({str(KELVIN)!r}, treated=2, control=3)", "hand_sheet('slate')"))
    run_all(phone)
    phone.wait_for_function("() => document.querySelector('.kit-card:has(.kit-sheet)')?.clientWidth > 240")
    assert phone.evaluate(WIDER) == [] and axe(phone) == []
    for name, part in (("rows", ".kit-scroll"), ("chart", ".kit-still"), ("code", "pre"), ("sheet", ".kit-sheet")):
        phone.locator(part).first.scroll_into_view_if_needed()
        picture(phone, f"bring-in-phone-{name}")
    phone.evaluate(DARK)
    assert axe(phone) == []
    picture(phone, "bring-in-phone-dark")
    phone.locator(".kit-still").scroll_into_view_if_needed()
    picture(phone, "bring-in-phone-dark-chart")


def test_what_is_typed_while_the_kernel_is_dead_comes_back(rough_page, open_notebook, run_all, restart_kernel, tmp_path):
    open_notebook(rough_page, cells(tmp_path, "hand_sheet('slate')"))
    run_all(rough_page)
    rough_page.get_by_label("control, minute 0, °C").fill("21.5")
    rough_page.keyboard.press("Tab")
    says(rough_page, ".kit-status", "Kept in slate.csv.")
    restart_kernel(rough_page)
    rough_page.get_by_label("treated, minute 0, °C").fill("22.5")
    rough_page.keyboard.press("Tab")
    run_all(rough_page)
    says(rough_page, ".kit-status", "Kept in slate.csv.")
    until(lambda: (tmp_path / "slate.csv").read_text("utf-8").splitlines()[1] == "0,22.5,21.5")
