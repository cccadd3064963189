"""The view of the lesson at home under keys and finger, drawn by a real browser."""

import pytest

from kit import glass_view

SCRIPT = "kitchen/kitchen"


@pytest.fixture
def view():
    return glass_view()


def grip(page, name):
    return page.get_by_role("slider", name=name, exact=True)


def test_keys_move_depth_and_r_and_the_sentence_follows(page, view, show_view, axe):
    show_view(page, view, SCRIPT)
    grip(page, "depth").focus()
    page.keyboard.press("End")
    page.wait_for_function("() => window.model.get('values').depth_cm === 25")
    page.get_by_text(view.answer["sentence"]).first.wait_for()
    assert "25 cm deep" in view.answer["picture"] and grip(page, "depth").get_attribute("aria-valuetext") == "25.0 cm"
    page.get_by_label("film").check()
    page.wait_for_function("() => document.querySelector('.kit-kitchen-film').getAttribute('visibility') === 'visible'")
    assert axe(page, ".kit-view") == []


@pytest.mark.parametrize(("name", "value", "across", "down"), [("depth", "depth_cm", 0, -40), ("mouth", "mouth_cm", -12, 0), ("R", "read", -50, 0)])
def test_a_finger_moves_each_grip_and_no_other(phone, view, show_view, finger, name, value, across, down):
    show_view(phone, view, SCRIPT)
    before = dict(view.values)
    finger(phone, grip(phone, name), across, down)
    phone.wait_for_function("before => JSON.stringify(window.model.get('values')) !== JSON.stringify(before)", arg=before)
    assert [each for each in before if before[each] != view.values[each]] == [value]
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
