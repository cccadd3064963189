"""The class's board in a browser: ticks, reasons, runs that open, thirty groups without scrolling sideways, names that can't run as markup, paper."""

import pytest

from kit import board_view, simulate_run
from kit.widgets.board.members import Class, Member
from kit.widgets.board.board import _hands, BoardView, Marked
from kit.widgets.board.thirty import thirty

SCRIPT = "board/board"
HOSTILE = '<img src=x onerror="window.struck = true"><b>Basalt</b>'
SIDEWAYS = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)


@pytest.fixture
def eight():
    return board_view()


@pytest.fixture
def whole():
    view = board_view(truth=True)
    view.move(groups=30, truth="open")
    return view


def counts(page, name):
    return page.get_by_role("checkbox", name=f"{name} counts")


def test_a_tick_leaves_a_group_out_and_its_reason_stays_in_sight(page, eight, show_view):
    show_view(page, eight, SCRIPT)
    counts(page, "Slate").focus()
    page.keyboard.press("Space")
    why = page.get_by_label("Slate is left out because")
    why.fill("The lamp was knocked.")
    why.press("Tab")
    page.wait_for_function("() => window.model.get('values').left_out.Slate === 'The lamp was knocked.'")
    assert page.locator(".kit-board-of-class .kit-board-words").inner_text() != page.locator(".kit-board-of-whole .kit-board-words").inner_text()
    page.get_by_text("With Slate it would be").first.wait_for()
    counts(page, "Slate").check()
    why.wait_for(state="hidden")
    assert eight.values["left_out"] == {} and page.locator(".kit-board-of-whole").count() == 0


def test_a_name_opens_the_run_below_its_row_and_closes_it_again(page, eight, show_view):
    show_view(page, eight, SCRIPT)
    name = page.get_by_role("button", name="Slate")
    name.press("Enter")
    page.locator("li", has=name).get_by_text("our lamp was knocked").wait_for()
    assert name.get_attribute("aria-expanded") == "true" and page.locator("li canvas").count() == 1
    name.press("Enter")
    page.locator(".kit-board-opened").wait_for(state="detached")


def test_a_run_of_ones_own_class_can_be_said_to_be_swapped(page, folder, show_view):
    whole = thirty()
    own = Class("ours", whole.members[:5], whole.run_of)
    runs = [run.name for each in own.members for run in each.runs]
    view = BoardView(own, [*_hands(own, ("name", "side")), Marked("turned", runs)], kept=False, pairs="joined")
    view.move(opened="Chert")
    show_view(page, view, SCRIPT)
    page.get_by_label("Chert: its vessels had changed places").check()
    page.wait_for_function("() => 'Chert' in window.model.get('values').turned")
    assert view.answer["opened"]["runs"] == [{"name": "Chert", "turned": True}]


def test_the_rows_stand_in_the_order_asked_for(page, eight, show_view):
    show_view(page, eight, SCRIPT)
    page.get_by_label("by size").check()
    page.wait_for_function("() => document.querySelector('.kit-board-rows').lastChild.textContent.includes('Slate')")
    shown = [each.inner_text() for each in page.locator(".kit-board-name").all()]
    assert shown == [row["name"] for row in eight.answer["rows"]]


def test_names_and_reasons_from_elsewhere_are_text_and_never_markup(page, show_view):
    group = thirty().members[0]
    odd = Class("odd", (Member(HOSTILE, group.runs, {}, HOSTILE), *thirty().members[1:4]), lambda name: simulate_run(step_s=10), left_out=())
    view = BoardView(odd, _hands(odd, ("name", "size")), kept=False)
    view.move(left_out={HOSTILE: HOSTILE}, opened=HOSTILE)
    show_view(page, view, SCRIPT)
    assert page.locator(".kit-board-name").first.inner_text() == HOSTILE
    assert page.get_by_role("textbox").input_value() == HOSTILE and page.locator(".kit-board-opened p").inner_text() == HOSTILE
    assert page.locator(".kit-view img, .kit-board b b, .kit-board li b").count() == 0 and page.evaluate("() => window.struck") is None


@pytest.mark.parametrize("width", [280, 390, 620, 900, 1280])
def test_thirty_groups_need_no_scrolling_sideways(page, whole, show_view, width):
    page.set_viewport_size({"width": width, "height": 900})
    show_view(page, whole, SCRIPT)
    assert page.locator(".kit-board-name").count() == 30 and page.evaluate(SIDEWAYS) <= max(0, 300 - width)
    for each in page.locator(".kit-board-tick").all()[:3]:
        assert each.bounding_box()["width"] >= 24 and each.bounding_box()["height"] >= 24


def test_the_class_bar_jumps_home_when_the_swap_pairs_are_joined(page, whole, show_view):
    show_view(page, whole, SCRIPT)
    page.get_by_text("lies outside the class's range").first.wait_for()
    page.get_by_label("swap pairs joined").check()
    page.get_by_text("lies inside the class's range").first.wait_for()
    page.wait_for_function(f"() => ({ACROSS})('.kit-board-band', '.kit-board-truth')")


ACROSS = """(one, other) => {
  const [a, b] = [one, other].map(each => document.querySelector(each).getBoundingClientRect());
  return a.left < b.right && b.left < a.right;
}"""


def test_a_finger_reaches_ticks_and_names(phone, whole, show_view):
    show_view(phone, whole, SCRIPT)
    for part in (".kit-board-tick", ".kit-board-name"):
        box = phone.locator(part).first.bounding_box()
        assert box["height"] >= 44 and box["width"] >= 40
    counts(phone, "Basalt").tap()
    phone.get_by_label("Basalt is left out because").wait_for()


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("which", ["eight", "whole"])
def test_it_reads_in_both_themes_and_by_axe(page, phone, request, show_view, axe, picture, which, theme):
    view = request.getfixturevalue(which)
    view.move(left_out={"Slate": "The lamp was knocked."}, opened="Slate" if which == "eight" else "")
    for window, size in ((page, "wide"), (phone, "narrow")):
        show_view(window, view, SCRIPT, theme)
        assert axe(window, ".kit-view") == []
        assert window.get_by_role("img", name="A bar for each").count() == 1
        picture(window, f"board-{which}-{size}-{theme}", full_page=True)


def test_on_paper_all_thirty_stand_on_one_page_with_their_reasons(page, whole, show_view, picture):
    page.set_viewport_size({"width": 720, "height": 1000})
    show_view(page, whole, SCRIPT)
    page.emulate_media(media="print")
    assert page.locator(".kit-board").bounding_box()["height"] <= 1000
    assert page.get_by_label("Slate is left out because").is_visible() and page.evaluate(SIDEWAYS) <= 0
    picture(page, "board-print", full_page=True)
