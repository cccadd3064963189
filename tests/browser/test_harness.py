"""The harness of these tests: no call to the browser waits for ever, and what follows a call that was given up works."""

import pytest

from tests.browser.windows import calls_limited

NEVER, BUSY = "() => new Promise(() => 0)", "() => { for (;;) ; }"


@pytest.mark.parametrize("script", [NEVER, BUSY])
def test_a_script_that_never_answers_ends_its_test_and_no_other(open_page, script):
    page = open_page()
    with calls_limited(0.5), pytest.raises(AssertionError, match="The browser has not answered this call in 0.5 s."):
        page.evaluate(script)
    assert open_page().evaluate("1 + 1") == 2
    page.context.close()  # or putting it away would wait for it, and its loop take a processor, for as long as any call may


def test_every_kind_of_call_has_the_limit(open_page):
    page = open_page()
    page.set_content("<p>")
    kinds = (page.locator("p").evaluate, page.locator("p").evaluate_all, page.query_selector("p").evaluate, page.main_frame.evaluate)
    for ask in kinds:
        with calls_limited(0.5), pytest.raises(AssertionError, match="has not answered"):
            ask(NEVER)
