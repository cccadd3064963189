"""A learner hands in by buttons: sees what would be in the file, names the group, and finds the file beside the page."""

from tests.browser.test_own_run import card, press

CELLS = ["from kit import hand_in_card, note", 'note("00.claim")', "hand_in_card()"]
SAID = "It warmed by 1.5 °C more than the control, and I do not know why."


def test_what_is_in_it_is_seen_before_it_is_made(page, lab, open_notebook, run_all, axe, picture):
    open_notebook(page, CELLS)
    run_all(page)
    card(page, "For your notebook").get_by_role("textbox").fill(SAID)
    card(page, "For your notebook").get_by_text("Kept at").wait_for()
    hand = card(page, "Hand in")
    press(hand, "Show me what would be in it")
    hand.get_by_text("lesson 00, Your first run").wait_for()
    assert not list(lab.work.glob("hand-in-Larch.zip"))
    hand.get_by_role("textbox").fill("Larch")
    press(hand, "Make the file")
    hand.get_by_text("Nothing has been sent.").first.wait_for()
    assert (lab.work / "hand-in-Larch.zip").stat().st_size > 500
    hand.scroll_into_view_if_needed()
    picture(page, "hand-in-1280")
    assert axe(page) == []
