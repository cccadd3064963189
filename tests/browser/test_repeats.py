"""Lesson 06's own views under keys, finger and eye: a hundred ranges that drop on the truth, and the budget's bars to pull down."""

import pytest

from kit import budget_view, example_run, paired_effect, repeats_view, suggest_windows, Windows

HUNDRED, BUDGET = "repeats/repeats", "budget/budget"
MISSERS = "() => [...document.querySelectorAll('.kit-repeats-miss')].length"


@pytest.fixture
def repeats():
    return repeats_view(setup=True)


@pytest.fixture
def early():
    run = example_run("chert-early")
    return budget_view(paired_effect(run, suggest_windows(run)))


@pytest.fixture
def by_hand():
    return budget_view(paired_effect(example_run("slate-hand"), Windows.of_perturbation(11), gain_uncertainty=0.02))


def held(page, view):
    """Wait until the count of the bars that miss is that of the answer, and stands in words above them."""
    missed = view.answer["hold"].count(False)
    page.wait_for_function(f"missed => ({MISSERS})() === missed", arg=missed)
    assert page.locator(".kit-repeats-count").text_content() == f"{100 - missed} of 100 hold the truth"


def test_a_key_drops_another_hundred_and_those_that_miss_are_bold_and_counted(page, repeats, show_view):
    show_view(page, repeats, HUNDRED)
    held(page, repeats)
    first = repeats.answer["bars"]
    page.get_by_role("slider", name="another hundred groups").press("ArrowRight")
    page.wait_for_function("() => window.model.get('values').hundred === 2")
    held(page, repeats)
    assert repeats.answer["bars"] != first and page.locator(".kit-repeats-bar").count() == 100


def test_the_naive_ranges_are_laid_in_their_place_and_most_miss(page, repeats, show_view):
    show_view(page, repeats, HUNDRED)
    page.get_by_label("naive ones").check()
    page.wait_for_function("() => window.model.get('values').ways === 'naive'")
    held(page, repeats)
    assert repeats.answer["hold"].count(False) > 50
    missing = page.locator(".kit-repeats-miss path").first
    assert missing.evaluate("each => getComputedStyle(each).display") == "inline"  # not by boldness alone


def test_every_bar_lies_where_python_says(page, repeats, show_view):
    show_view(page, repeats, HUNDRED)
    held(page, repeats)
    line = float(page.locator(".kit-repeats-truth").get_attribute("y1"))
    ends = page.locator(".kit-repeats-bar line").evaluate_all("all => all.map(each => ['y1', 'y2'].map(end => Number(each.getAttribute(end))))")
    assert [high <= line <= low for low, high in ends] == repeats.answer["hold"]


def test_keys_pull_a_bar_down_and_the_range_follows(page, early, show_view):
    show_view(page, early, BUDGET)
    bar = page.get_by_role("slider", name="drift")
    bar.focus()
    page.keyboard.press("Home")
    page.wait_for_function("() => window.model.get('values').drift === 0")
    page.get_by_text("With drift at 0 %").first.wait_for()
    assert bar.get_attribute("aria-valuetext") == "0 %" and page.locator(".kit-figures strong").nth(1).inner_text() == early.answer["numbers"][1][1]
    page.get_by_role("button", name="Start again").click()
    page.get_by_text("Pull one down.").first.wait_for()


def test_a_finger_pulls_a_bar_down(phone, early, show_view, finger):
    show_view(phone, early, BUDGET)
    bar = phone.get_by_role("slider", name="drift")
    assert min(bar.bounding_box()[side] for side in ("width", "height")) >= 44
    finger(phone, bar, 0, 60)
    phone.wait_for_function("() => window.model.get('values').drift <= 75")
    assert early.values["noise"] == 100


@pytest.mark.parametrize("width", [280, 390, 620, 900])
def test_the_budget_needs_no_scrolling_sideways(page, early, show_view, width):
    page.set_viewport_size({"width": width, "height": 900})
    show_view(page, early, BUDGET)
    assert page.evaluate("() => document.documentElement.scrollWidth - document.documentElement.clientWidth") <= max(0, 300 - width)


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("which, script", [("repeats", HUNDRED), ("early", BUDGET), ("by_hand", BUDGET)])
def test_both_read_in_both_themes_and_by_axe(page, phone, request, show_view, axe, picture, which, script, theme):
    view = request.getfixturevalue(which)
    if which != "repeats":
        view.move(drift=40)
    for window, size in ((page, "wide"), (phone, "narrow")):
        show_view(window, view, script, theme)
        assert axe(window, ".kit-view") == []
        picture(window, f"06-{which}-{size}-{theme}", full_page=True)
