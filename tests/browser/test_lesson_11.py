"""The second and third look of lesson 11, drawn by a real browser: a year under a key, points sorted by a finger."""

from kit.widgets.airrecord import co2_view
from kit.widgets.carryover import sorting_view


def test_a_key_moves_the_year_and_the_bars_follow(page, show_view):
    view = co2_view()
    show_view(page, view, "airrecord/airrecord")
    page.get_by_role("slider", name="year").press("End")
    page.get_by_text("CO2 went from 278 ppm in 1750 to 371 ppm in 2001.").first.wait_for()
    page.get_by_text(view.answer["bars"][0]["text"]).wait_for()
    page.get_by_role("radio", name="the first year of the record").check()
    page.get_by_text("CO2 went from 316 ppm in 1959").first.wait_for()


def test_a_finger_sorts_and_each_point_answers_where_it_stands(phone, show_view):
    show_view(phone, sorting_view(), "carryover/carryover")
    walls = phone.get_by_role("group", name="Walls")
    walls.get_by_text("Carries over").tap()
    phone.get_by_text("Read both sides again").wait_for()
    walls.get_by_text("Does not").tap()
    phone.get_by_text("Does not: walls").wait_for()
    assert phone.get_by_text("Read both sides again").count() == 0
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
