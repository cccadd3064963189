"""A course made, changed, checked and packed by a teacher; a learner opens its zip, predicts, and finds the teacher's own words."""

from kit.course import add_lesson, lacks_of, new_course, pack_course
from kit.coursework import LESSONS, read_answers
from tests.browser.test_own_run import card, press

ASKED = "Air goes in. What will our own vessel do, compared with its twin?"
OLD = "Air instead of CO2 goes into the treated vessel. How does it change, compared with the control?"


def test_a_learner_opens_the_course_that_a_teacher_packed(page, start_lab, tmp_path, started, axe, picture):
    course = new_course(tmp_path / "ours", [LESSONS / "04-is-it-steady.ipynb"], title="Class 8b")
    lesson = add_lesson(course, "20-our-lamp")
    cards = lesson.with_suffix(".toml")
    cards.write_text(cards.read_text(encoding="utf-8").replace(OLD, ASKED), encoding="utf-8")
    assert lacks_of(lesson).sentences == ()
    lab = start_lab(tmp_path / "learner", "--course", str(pack_course(course)))
    page.goto(lab.landing)
    started(page)
    page.get_by_role("heading", name="Class 8b").wait_for()
    picture(page, "course-contents-1280")
    page.get_by_role("link", name="Air instead of gas").click()
    asked = card(page, "Your prediction")
    asked.get_by_text(ASKED).wait_for()
    assert page.get_by_text("For you, the teacher").count() == 0
    asked.get_by_label("No clear difference").check()
    asked.get_by_label("fairly sure").check()
    press(asked, "Keep my prediction")
    card(page, "A second look at your prediction").get_by_text("Your prediction fits what came out.").wait_for()
    page.locator(".js-plotly-plot").first.wait_for()
    asked.scroll_into_view_if_needed()
    picture(page, "course-lesson-1280")
    assert axe(page) == []
    (answers,) = (tmp_path / "learner").glob("20-*answers.json")
    assert read_answers(answers).latest("20.air").content["words"] == "No clear difference"
