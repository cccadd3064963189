"""A view in a class that reads °F, drawn by a real browser: what a grip says is turned, the value under the hand stays in °C."""

from kit.settings import NAME
from kit.widgets.compare import compare_view


def test_a_grip_says_fahrenheit_and_holds_celsius(page, show_view, tmp_path, monkeypatch):
    (tmp_path / NAME).write_text('[show]\ntemperature = "°F"\n', encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    view = compare_view()
    show_view(page, view, "compare/compare")
    margin = page.get_by_role("slider", name="margin", exact=True)
    assert margin.get_attribute("aria-valuetext") == "0.54 °F"
    margin.focus()
    page.keyboard.press("ArrowRight")
    page.wait_for_function("() => document.querySelector('[aria-label=margin]').getAttribute('aria-valuetext') === '0.63 °F'")
    page.wait_for_function("() => Math.abs(window.model.get('values').margin - 0.35) < 1e-9")
    assert "°C" not in page.locator("body").inner_text()
