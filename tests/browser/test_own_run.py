"""The whole job on one's own run by buttons alone: from a messy file to a kept effect, and back another day; on a phone, too."""

from datetime import datetime, timedelta

from kit.coursework import own_runs, remember
from tests.browser.conftest import INTO_VIEW, SAVE, WRITTEN
from tests.widgets.invented import invented_run

NAME = "your-own-run.ipynb"
WIDER = """() => [...document.querySelectorAll('.kit-card, .kit-marker, .kit-watch')].flatMap(card => [...card.querySelectorAll('*')]
  .filter(each => !each.closest('.kit-scroll, .kit-fold, svg') && each.getBoundingClientRect().right > card.getBoundingClientRect().right + 1)
  .map(each => each.outerHTML.slice(0, 80)))"""
START = datetime(2026, 10, 3, 9, 58, 50)


def messy():
    """A file as loggers write it: a preamble, semicolons, decimal commas, days before months, and jars without a role. Invented."""
    run, lines = invented_run(130, 21.5, gas=False), ["Logger 4711 export", "Site;roof room", "", "Date/time;Jar A;Jar B"]
    for seconds, row in run.readings.iterrows():
        a, b = (f"{row[name] + 25 * (seconds == 300 and name == 'control'):.2f}".replace(".", ",") for name in ("treated", "control"))
        lines.append(f"{START + timedelta(seconds=seconds):%d/%m/%Y %H:%M:%S};{a};{b}")
    return "\r\n".join(lines).encode("cp1252")


def card(page, title):
    return page.get_by_role("group", name=title, exact=True)


def press(where, name):
    where.get_by_role("button", name=name, exact=True).click()


def bring_in(page):
    """Hand over the messy file and settle by clicks what it leaves open."""
    view = card(page, "Bring in a run")
    view.locator("input[type=file]").set_input_files({"name": "roof.csv", "mimeType": "text/csv", "buffer": messy()})
    for question, words in (("Which column is the treated vessel", "Jar A"), ("unit", "°C")):
        view.get_by_role("group", name=question).locator(".kit-choice").filter(has_text=words).locator("input").check()
    press(view, "Keep this run")
    card(page, "Bring a run in").get_by_text("Run roof (measured): 130 readings over 21.5 min").first.wait_for()


def at_step(page, step):
    page.get_by_role("heading", name=f"Step {step} of").evaluate(INTO_VIEW)


def test_from_a_messy_file_to_a_kept_effect_by_clicks_alone(page, lesson, axe, picture, started, restart_kernel):
    lesson(page)
    card(page, "The effect").get_by_text("There is no run yet.").wait_for()
    picture(page, "own-run-start-1280")
    bring_in(page)
    odd = card(page, "Odd places")
    odd.get_by_role("radio", name="Leave it out").check()
    press(odd, "No vessel warms and cools so fast.")
    press(odd, "Decide")
    odd.get_by_text("Because: No vessel warms and cools so fast.").wait_for()
    press(card(page, "Was it steady?"), "Look")
    press(card(page, "Mark the windows"), "Suggest the windows")
    press(card(page, "The effect"), "Keep this effect")
    kept = card(page, "The effect").locator(".kit-kept")
    kept.wait_for()
    sentence = kept.locator("p").last.inner_text()
    assert sentence.startswith("The treated vessel warmed by 1.5")
    beside = card(page, "Beside another run")
    beside.get_by_label("0.3 °C").check()
    press(beside, "Compare")
    beside.get_by_text("mine minus the reference is").first.wait_for()
    press(card(page, "Among the class"), "Add my run")
    card(page, "Among the class").get_by_text("One group cannot speak for a class").first.wait_for()
    card(page, "For your notebook").get_by_role("textbox").fill("My jar warmed more than its twin.")
    card(page, "For your notebook").get_by_text("Kept at").wait_for()
    for step in range(1, 13):
        at_step(page, step)
        picture(page, f"own-run-{step}-1280")
    assert axe(page) == []
    restart_kernel(page)
    started(page)
    page.evaluate(SAVE)
    page.reload()
    started(page)
    card(page, "The effect").get_by_text(sentence).first.wait_for()
    page.wait_for_function(WRITTEN, arg="My jar warmed more than its twin.")
    (own,) = own_runs(lesson.folder)
    assert own.file == "roof.csv" and (lesson.folder / "roof.csv").read_bytes() == messy()


def test_it_fits_a_phone_and_works_by_touch(phone, lesson, axe, picture):
    folder = lesson.folder
    invented_run(130, 21.5, gas=False, name="roof").save(folder / "roof.csv")
    remember("roof.csv", {}, folder)
    lesson(phone)
    for title, button in (("Mark the windows", "Suggest the windows"), ("The effect", "Keep this effect")):
        card(phone, title).get_by_role("button", name=button, exact=True).tap()
    card(phone, "The effect").locator(".kit-kept").wait_for()
    card(phone, "Beside another run").get_by_label("0.3 °C").tap()
    card(phone, "Beside another run").get_by_role("button", name="Compare", exact=True).tap()
    card(phone, "Beside another run").get_by_text("mine minus the reference is").first.wait_for()
    assert phone.evaluate("() => document.documentElement.scrollWidth") <= 390 and phone.evaluate(WIDER) == []
    for step in range(1, 13):
        at_step(phone, step)
        picture(phone, f"own-run-{step}-390")
    assert axe(phone) == []
