"""A class that reads short texts: a lesson that was begun in full texts starts again in short ones, and can be done to its end."""

from kit.coursework import answers_beside, LESSONS, page_of, read_answers, read_lesson
from kit.settings import NAME

LESSON = LESSONS / "00-your-first-run.ipynb"
AGAIN = "() => window.jupyterapp.shell.currentWidget.context.path.endsWith('-2.ipynb')"


def text_of(cell_id):
    """What the short page's cell says last, as it is read."""
    return next("".join(cell["source"]) for cell in page_of(LESSON, "short")["cells"] if cell["id"] == cell_id).splitlines()[-1]


def test_a_lesson_starts_again_in_short_texts_and_is_done_to_its_end(page, own_copy, open_notebook, started, picture):
    folder = own_copy(LESSON)
    (folder / NAME).write_text('[show]\nlanguage = "short"\n', encoding="utf-8")
    open_notebook(page, f"{folder.name}/{LESSON.name}")
    started(page)
    page.get_by_role("button", name="Start again with a fresh copy").click()
    page.wait_for_function(AGAIN)
    started(page)
    shown = page.locator(".jp-NotebookPanel:not(.lm-mod-hidden)")
    shown.locator(".jp-RenderedMarkdown").get_by_text(text_of("00-try"), exact=True).wait_for()
    lesson = read_lesson("00", folder)
    for nth, prediction in enumerate(lesson.predictions):
        asked = shown.get_by_role("group", name="Your prediction", exact=True).nth(nth)
        asked.get_by_text(prediction.stem, exact=True).wait_for()
        asked.get_by_role("radio").nth(2).check()
        asked.get_by_label("a guess").check()
        asked.get_by_role("button", name="Keep my prediction").click()
        asked.get_by_text("You said").first.wait_for()
    picture(page, "short-predicted-1280")
    quiz = shown.get_by_role("group", name="Check yourself", exact=True)
    for place, question in enumerate(lesson.questions, start=1):
        quiz.get_by_text(f"Question {place} of 5", exact=True).wait_for()
        quiz.get_by_role("radio").nth(question.choices.index(question.right)).check()
        quiz.get_by_role("button", name="Check my answer").click()
        quiz.get_by_text("Yes. Here is why:", exact=True).wait_for()
        if place < 5:
            quiz.get_by_role("button", name="Next question").click()
    quiz.get_by_text("You found the answer to every question.", exact=True).wait_for()
    quiz.scroll_into_view_if_needed()
    picture(page, "short-done-1280")
    kept = read_answers(answers_beside(folder / "00-your-first-run-2.ipynb"))
    assert kept.latest("00.nocontrol", "prediction").content["words"] == "A smaller number"
    assert len([each for each in kept.answers if each.kind == "question"]) == 5
