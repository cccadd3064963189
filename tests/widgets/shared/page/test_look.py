"""The widgets' look: the same colours as the charts, and text that can be read on them."""

import re

import pytest

from kit.charts.drawing import style
from kit.widgets.shared.scripts import sheet

LOOK = sheet("shared/page/look")
LIGHT, DARK = (dict(re.findall(r"--kit-([\w-]+): (#[0-9a-f]+)", block)) for block in LOOK.split("[data-jp-theme-light", 2)[:2])
PAPER = {"light": "#ffffff", "dark": "#111111"}  # JupyterLab's own page in its two themes


def luminance(colour):
    """Relative luminance, WCAG 2.2, "relative luminance"."""
    digits = colour[1:] if len(colour) == 7 else "".join(2 * digit for digit in colour[1:])
    parts = [int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), linear))


def contrast(one, other):
    """Contrast ratio, WCAG 2.2, "contrast ratio"."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def test_contrast_of_black_on_white_is_as_published():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)  # WCAG 2.2: ratios range from 1 to 21


@pytest.mark.parametrize("name", ["treated", "control", "difference"])
def test_lines_have_the_colours_of_the_charts(name):
    assert LIGHT[name] == style.LINES[name]["color"]


@pytest.mark.parametrize(("theme", "colours"), [("light", LIGHT), ("dark", DARK)])
def test_lines_and_words_stand_out_in_both_themes(theme, colours):
    words = ["ink", "soft", "treated", "control", "difference", "gas", "warn", "b", "p", "r"]
    assert all(contrast(colours[name], PAPER[theme]) >= 4.5 for name in words)  # WCAG 2.2, criterion 1.4.3


def turned_over(colour):
    """What `invert(0.93) hue-rotate(180deg)` makes of a colour (W3C Filter Effects 1, 9.4 `hueRotate`: its matrix at 180°; `invert`: 9.6)."""
    red, green, blue = (0.93 * (1 - int(colour[i : i + 2], 16) / 255) + 0.07 * int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    luma = 2 * (0.213 * red + 0.715 * green + 0.072 * blue)
    return "#" + "".join(f"{round(255 * min(max(luma - part, 0), 1)):02x}" for part in (red, green, blue))


def test_charts_in_the_dark_theme_have_the_views_dark_colours():
    amount, turn = re.search(r"\.js-plotly-plot \{ filter: invert\(([\d.]+)\) hue-rotate\((\d+)deg\)", LOOK).groups()
    assert (amount, turn) == ("0.93", "180")
    for name in ("treated", "control"):
        near = zip(bytes.fromhex(turned_over(style.LINES[name]["color"])[1:]), bytes.fromhex(DARK[name][1:]))
        assert all(abs(one - other) <= 12 for one, other in near)
    paper = turned_over(style.PAPER)
    assert all(contrast(turned_over(ink), paper) >= 4.5 for ink in (style.TREATED, style.CONTROL, style.DIFFERENCE, style.QUIET, style.INK))
