"""Lesson 10 in the browser: chips by keys, a run that is predicted and bought, bars that move, and all of it found again; on a phone, too."""

NAME = "10-what-warmed-it.ipynb"
IN_VIEW = """() => {
  const { top, bottom } = document.querySelector('.kit-last').getBoundingClientRect();
  return top >= 0 && bottom <= innerHeight;
}"""
CHIPS = ("less exchange through the mouth", "thermometer in the beam", "lamp light taken up")


def card(page, title):
    return page.get_by_role("group", name=title, exact=True)


def lay_chips(page):
    """By keys alone: Space on three cards, then the button."""
    chips = card(page, "Three chips")
    for name in CHIPS:
        box = chips.get_by_role("checkbox", name=name)
        box.focus()
        box.press("Space")
    chips.get_by_text("3 of 3 chips laid").wait_for()
    assert chips.get_by_role("checkbox", name="cold or wet gas").is_disabled()
    keep = chips.get_by_role("button", name="Keep my three chips")
    keep.focus()
    keep.press("Enter")
    chips.get_by_text("Your chips: less exchange").first.wait_for()


def predict(page):
    asked = card(page, "Your prediction").first
    asked.get_by_role("radio").first.check()
    asked.get_by_label("fairly sure").check()
    asked.get_by_role("button", name="Keep my prediction").click()


def buy(page, run, word):
    runs = card(page, "Four runs to spend")
    runs.locator(f"input[value={run}]").check()
    for letter in "mda":
        runs.get_by_role("group", name=f"If only {letter} were").get_by_label(word, exact=True).check()
    runs.get_by_role("button", name="Spend a run").click()
    runs.locator(".kit-last").get_by_text(f": {run}", exact=False).first.wait_for()


def test_four_runs_are_spent_and_found_again(page, lesson, started, axe, picture):
    lesson(page)
    lay_chips(page)
    predict(page)
    runs = card(page, "Four runs to spend")
    runs.get_by_text("4 of 4 runs left").wait_for()
    buy(page, "covered", "gone")
    runs.get_by_text("Moved: less exchange").first.wait_for()
    page.wait_for_function(IN_VIEW)
    picture(page, "10-spending-1280")
    for run in ("shaded", "argon", "stirred"):
        buy(page, run, "same")
    runs.get_by_text("could have told them apart").first.wait_for()
    assert axe(page) == []
    page.reload()
    started(page)
    runs.get_by_text("Your four runs are spent").wait_for()
    runs.get_by_role("button", name="Open the other five").click()
    runs.get_by_role("radio", name="no lamp").check()
    runs.get_by_role("button", name="Keep this").click()
    runs.get_by_text("You said no lamp").first.wait_for()
    picture(page, "10-opened-1280")
    assert axe(page) == []


def test_it_fits_a_phone(phone, lesson, axe, picture):
    lesson(phone)
    lay_chips(phone)
    picture(phone, "10-chips-390")
    predict(phone)
    buy(phone, "shaded", "less")
    picture(phone, "10-spending-390")
    assert phone.evaluate("() => document.documentElement.scrollWidth") <= 390 and axe(phone) == []
