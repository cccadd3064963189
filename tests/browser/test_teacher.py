"""A teacher sets the class's unit: the lesson that is open follows, and so does the course that is packed afterwards."""

import shutil
import zipfile

from kit.course import new_course, pack_course
from kit.coursework import LESSONS
from kit.settings import NAME
from tests.browser.conftest import OPEN
from tests.browser.test_own_run import card, press

LESSON = "00-your-first-run.ipynb"


def test_settings_reach_the_open_lesson_and_the_packed_course(page, start_lab, tmp_path, started, axe, picture):
    course, work = new_course(tmp_path / "ours", [LESSONS / LESSON], title="Class 8b"), tmp_path / "my-class"
    work.mkdir()
    shutil.copy(LESSONS / LESSON, work)
    lab = start_lab(work, "--teacher", "--course", str(course))
    page.goto(lab.landing)
    started(page)
    page.get_by_role("heading", name="The desk", exact=True).wait_for()
    page.evaluate(OPEN, LESSON)
    started(page)
    asked = card(page, "Your prediction").first
    asked.get_by_text("°C").first.wait_for()
    page.evaluate(OPEN, "settings.ipynb")
    started(page)
    form = card(page, "What holds for the class")
    form.get_by_label("degrees Fahrenheit").check()
    press(form, "Write the settings")
    form.get_by_text("A lesson that is open follows when you go back to it.").wait_for()
    picture(page, "settings-1280")
    assert axe(page) == []
    page.evaluate(OPEN, LESSON)
    asked.get_by_text("°F").first.wait_for()
    started(page)
    assert "°C" not in asked.inner_text()
    picture(page, "lesson-follows-1280")
    with zipfile.ZipFile(pack_course(course)) as packed:
        (name,) = [each for each in packed.namelist() if each.endswith(NAME)]
        assert 'temperature = "°F"' in packed.read(name).decode("utf-8")
