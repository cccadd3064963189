"""The simulated bench by buttons alone: set up, watched as it comes in, used, weighed, its truth opened last, and found again; on a phone, too."""

NAME = "simulated-bench.ipynb"
WIDER = """() => [...document.querySelectorAll('.kit-card, .kit-marker')].flatMap(card => [...card.querySelectorAll('*')]
  .filter(each => !each.closest('.kit-scroll, .kit-fold, svg') && each.getBoundingClientRect().right > card.getBoundingClientRect().right + 1)
  .map(each => each.outerHTML.slice(0, 80)))"""


def card(page, title):
    return page.get_by_role("group", name=title, exact=True)


def press(where, name):
    where.get_by_role("button", name=name, exact=True).click()


def use_a_run(page, **picked):
    """Set a run up on bench 4, watch its first readings, and use it."""
    setup = card(page, "Set up a run")
    setup.get_by_label("mouths 3.5 cm wide").check()
    for question, words in picked.items():
        setup.get_by_role("group", name=question).get_by_label(words).check()
    press(setup, "Start the run")
    page.get_by_text("min recorded").first.wait_for()
    press(card(page, "When it is over"), "Use this run, all of it")
    card(page, "When it is over").wait_for(state="detached")


def test_a_bench_is_set_up_measured_weighed_and_opened_last(page, lesson, started, axe, picture):
    lesson(page)
    use_a_run(page)
    page.locator(".kit-marker").wait_for()
    use_a_run(page, **{"Once the gas is in, both mouths": "get a film"})
    card(page, "Mark the windows").get_by_label("run 2: CO2, covered, lamp on, read after 10 min").wait_for()
    weighing = card(page, "Weigh your runs")
    press(weighing, "Weigh my runs")
    weighing.get_by_text("Last weighed: run 2").first.wait_for()
    picture(page, "bench-weighed-1280")
    truth = card(page, "The truth of this bench")
    press(truth, "Keep this, and open the truth")
    truth.get_by_text("Say first what made most").first.wait_for()
    truth.get_by_label("cannot tell").check()
    press(truth, "Keep this, and open the truth")
    truth.get_by_text("In truth the gas made").first.wait_for()
    assert axe(page) == [] and page.evaluate(WIDER) == []
    page.reload()
    started(page)
    card(page, "The truth of this bench").get_by_text("In truth the gas made").first.wait_for()


def test_it_fits_a_phone(phone, lesson, axe, picture):
    lesson(phone)
    use_a_run(phone)
    press(card(phone, "Weigh your runs"), "Weigh my runs")
    card(phone, "Weigh your runs").get_by_text("Last weighed: run 1").first.wait_for()
    assert phone.evaluate(WIDER) == [] and phone.evaluate("() => document.documentElement.scrollWidth") <= 390
    picture(phone, "bench-weighed-390")
    assert axe(phone) == []
