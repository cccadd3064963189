"""The sheets for teachers in a real browser, with no network: on both kinds of paper no row, cell or picture is cut, and axe finds nothing."""

from axe_playwright_python.sync_playwright import Axe

from kit.sheets import sheet_page, sheet_titles
from tests.browser.test_report import CUT, FITS, PAPERS, TALL

FULL = "() => [...document.querySelectorAll('th, td')].filter(each => each.scrollWidth > each.clientWidth + 1).map(each => each.textContent)"
MM = 96 / 25.4  # pixels (CSS Values 3)


def test_every_sheet_prints_on_both_papers_without_a_cut(page, picture):
    page.context.set_offline(True)
    for name in sheet_titles():
        page.set_content(sheet_page(name))
        page.emulate_media(media="screen")
        assert Axe().run(page).response["violations"] == [], name
        page.emulate_media(media="print")
        for paper, (wide, high) in PAPERS.items():
            page.set_viewport_size({"width": int((wide - 2 * 14) * MM), "height": int(high * MM)})
            cut = page.evaluate(CUT), page.evaluate(TALL, (high - 2 * 16) * MM), page.evaluate(FULL), page.evaluate(FITS)
            assert cut == (0, 0, [], True), (name, paper)
        picture(page, f"sheet-{name}")
