"""The view of lesson 01 under keys, finger and mouse, drawn by a real browser; what its shared pieces do is tried here, too."""

import time

import pytest

from kit.widgets.energy import energy_view

SCRIPT = "energy/energy"
KEEP_SPOKEN = """() => {
  const status = document.querySelector('.kit-view [role=status]');
  window.spoken = [];
  new MutationObserver(() => window.spoken.push(status.textContent)).observe(status, { childList: true });
}"""


@pytest.fixture
def view():
    return energy_view()


def grip(page, name):
    return page.get_by_role("slider", name=name)


def test_keys_move_a_grip_and_number_and_sentence_answer(page, view, show_view):
    show_view(page, view, SCRIPT)
    grip(page, "mouth").focus()
    page.keyboard.press("End")
    page.keyboard.press("PageDown")
    page.keyboard.press("ArrowLeft")
    page.wait_for_function("() => window.model.get('values').mouth_cm === 8.9")
    assert view.values["mouth_cm"] == pytest.approx(8.9)
    assert grip(page, "mouth").get_attribute("aria-valuetext") == "8.9 cm"
    page.get_by_text(view.answer["sentence"]).first.wait_for()
    assert page.locator(".kit-figures strong").first.inner_text() == view.answer["numbers"][0][1]


def test_a_finger_moves_each_grip_and_reaches_it(phone, view, show_view, finger):
    show_view(phone, view, SCRIPT)
    for name, across, down in (("lamp", 0, -40), ("mouth", 15, 0), ("glass", 10, 0), ("minute", 60, 0)):
        box = grip(phone, name).bounding_box()
        assert box["width"] >= 44 and box["height"] >= 44
        before = dict(view.values)
        finger(phone, grip(phone, name), across, down)
        phone.wait_for_function("before => JSON.stringify(window.model.get('values')) !== JSON.stringify(before)", arg=before)
        changed = [key for key in before if before[key] != view.values[key]]
        assert changed == [next(key for key in before if key.startswith(name))]
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390


def test_the_sentence_is_spoken_once_after_the_hand_rests(page, view, show_view, press_at_once):
    """However slow Python is: what it says of a place that the hand has left is not spoken."""
    show_view(page, view, SCRIPT)
    page.evaluate(KEEP_SPOKEN)
    page.wait_for_timeout(600)
    assert page.evaluate("() => window.spoken") == []  # what stands there when it opens is not news
    answer = view._answer
    view._answer = lambda **values: (time.sleep(0.6), answer(**values))[1]
    press_at_once(grip(page, "lamp"), *5 * ["ArrowUp"])
    page.wait_for_function("() => window.spoken.length")
    assert page.evaluate("() => window.spoken") == [view.answer["sentence"]]


def test_start_again_and_keys_that_stay_inside(page, view, show_view):
    show_view(page, view, SCRIPT)
    page.evaluate("() => { window.leaked = []; document.addEventListener('keydown', event => window.leaked.push(event.key)); }")
    grip(page, "lamp").focus()
    for key in ("Home", "b", "d", "d"):
        page.keyboard.press(key)
    page.wait_for_function("() => window.model.get('values').lamp_w === 1")
    page.get_by_role("button", name="Start again").click()
    page.wait_for_function("() => window.model.get('values').lamp_w === 4")
    assert page.evaluate("window.leaked") == []


def test_a_fault_is_said_in_the_view(page, view, show_view, monkeypatch):
    show_view(page, view, SCRIPT)
    view._answer = lambda **values: "That can't be."
    grip(page, "lamp").press("ArrowUp")
    page.get_by_text("That can't be.").first.wait_for()
    assert "kit-old" in page.locator(".kit-view").get_attribute("class")


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_it_can_be_read_in_both_themes_and_by_axe(page, phone, view, show_view, axe, picture, theme):
    for name, window in (("wide", page), ("narrow", phone)):
        show_view(window, view, SCRIPT, theme)
        assert window.locator("canvas").get_attribute("aria-label") == view.answer["picture"]
        assert axe(window, ".kit-view") == []
        picture(window, f"energy-{name}-{theme}", full_page=True)


# As JupyterLab does it: the page is hidden while the theme changes, and shown again before the next frame.
TO_DARK = """async () => {
  document.body.style.display = 'none';
  document.body.dataset.jpThemeLight = 'false';
  await Promise.resolve();
  document.body.style.display = '';
  for (let i = 0; i < 3; i++) await new Promise(requestAnimationFrame);
  const canvas = document.querySelector('.kit-plot canvas'), { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
  const inks = new Set();
  for (let i = 0; i < data.length; i += 4) if (data[i + 3] === 255) inks.add([data[i], data[i + 1], data[i + 2]].join());
  return [inks.has('238,238,238'), inks.has('34,34,34')];
}"""


def test_the_plot_follows_a_change_of_theme(page, view, show_view):
    show_view(page, view, SCRIPT)
    page.wait_for_function("() => document.querySelector('.kit-plot canvas').clientWidth > 300")
    assert page.evaluate(TO_DARK) == [True, False]
