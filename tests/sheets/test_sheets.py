"""Every sheet can be made for any class: all numbers filled in, in the class's unit, safe, and with nothing from outside."""

import re

import pytest

from kit import bench_card, gas_dose
from kit.bench import expected_pair
from kit.coursework import TEACHERS
from kit.faults import Fault
from kit.settings import NAME
from kit.sheets import sheet_page, sheet_titles, write_sheets
from kit.sheets.period import period_of
from tests.lessons.reading import grade, prose, sentences
from tests.lessons.test_language import FORBIDDEN, HARDEST, LONGEST

FILES = sorted((TEACHERS / "sheets").glob("*.md"))
NAMES = [path.stem for path in FILES]
AT_THE_BENCH = ("01-try-out", "02-bench-period", "03-risk-assessment")
FOR_LEARNERS = ("06-on-paper", "09-exit-tickets", "10-letter-home", "11-glossary")
ODD = """\
[show]
temperature = "°F"
[vessel]
volume_l = 0.35
depth_cm = 9
mouth_cm = 7
[lamp]
kind = "halogen"
power_w = 600
[gas]
source = "vinegar"
bicarbonate_g = 5
vinegar_ml = 70
[timing]
gas_at_min = 20
read_after_min = 25
"""


@pytest.fixture(scope="module")
def usual():
    return {name: sheet_page(name) for name in NAMES}


@pytest.fixture
def odd(tmp_path, monkeypatch):
    (tmp_path / NAME).write_text(ODD, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def seen(html):
    """The words of a page, without its styles."""
    return re.sub(r"<[^>]+>", " ", re.sub(r"<style>.*?</style>", "", html, flags=re.DOTALL))


@pytest.mark.parametrize("name", NAMES)
def test_every_number_is_filled_in_and_nothing_comes_from_outside(usual, name):
    html = usual[name]
    assert not re.search(r"\{[\w.:]+\}", seen(html)) and "<h1>" in html and "<script" not in html
    assert not re.search(r"<link|\bsrc=|@import|url\(|href=", html) and set(re.findall(r'https?://[^"\s<]+', html)) <= {"http://www.w3.org/2000/svg"}


def test_all_of_them_are_made_for_an_odd_class_and_speak_its_unit(odd):
    pages = {name: seen(sheet_page(name)) for name in NAMES}
    assert not [name for name, text in pages.items() if re.search(r"\{[\w.:]+\}|°C|\bnan\b", text)]
    assert "0.35 L, 9 cm deep, mouth 7 cm wide" in pages["01-try-out"] and "600 W" in pages["01-try-out"] and "°F" in pages["01-try-out"]
    assert [path.stem for path in write_sheets(NAMES)] == NAMES and len(list((odd / "pages").iterdir())) == len(NAMES)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_no_text_types_what_the_kit_should_supply(path):
    """A temperature, a dose and the bench's own size stand in braces; what is left are minutes of a lesson, and cautions."""
    typed = re.findall(r"\d[\d.,]*\s*(?:°[CF]|ppm|W/m²|tablets)", re.sub(r"\{[^}]*\}", "", path.read_text(encoding="utf-8")))
    assert typed == []


@pytest.mark.parametrize("name", AT_THE_BENCH)
def test_the_cautions_stand_on_what_is_used_at_a_bench(usual, name):
    words = seen(usual[name])
    for needed in ("Lamp and cage burn skin", "Never close a vessel", "Air the room", "Your local rules come first. A qualified adult decides."):
        assert needed in words, needed


def test_a_flat_glass_loses_its_gas_before_the_usual_reading(odd):
    expected = expected_pair()
    assert expected.gone.high < 25 and expected.effect.low < 0.1 and "You may come too late" in seen(sheet_page("01-try-out"))


def test_a_text_of_ones_own_goes_first_and_an_unknown_number_is_named(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "sheets").mkdir()
    (tmp_path / "sheets" / "01-try-out.md").write_text("# Ours\n\nA <b>jar</b> of {volume}.\n", encoding="utf-8")
    (tmp_path / "sheets" / "club.md").write_text("# Club\n\n{what}\n", encoding="utf-8")
    assert sheet_titles()["01-try-out"] == "Ours" and "A &lt;b&gt;jar&lt;/b&gt; of 1.5 L." in sheet_page("01-try-out")
    with pytest.raises(Fault, match="The sheet club asks for {what}, which the kit does not know"):
        sheet_page("club")
    with pytest.raises(Fault, match="There is no sheet 'bell'"):
        sheet_page("bell")


@pytest.mark.parametrize("name", FOR_LEARNERS)
def test_what_learners_and_families_read_is_easy_to_read(usual, name):
    body = re.sub(r"<(style|caption|svg).*?</\1>", "", usual[name].partition("<body>")[2], flags=re.DOTALL)
    lines = re.sub(r"</(?:p|li|h\d|td|th)>", "\n", body)
    text = prose(re.sub(r"<br>|[☐_]+", " ", re.sub(r"<[^>]+>", "", lines)))
    assert grade(text) <= HARDEST and not [found.group() for found in re.finditer(FORBIDDEN, text, re.IGNORECASE)]
    assert not [words for words in sentences(text) if len(words) > LONGEST]


def test_a_lesson_at_the_bench_follows_the_class_and_says_what_does_not_fit(odd, usual):
    """Usual: gas 11 min after the lamp, read 10 min later, so the lamp goes on a minute before the bell and the reading stands at minute 20."""
    assert "The lamp goes on 1 min before the bell. It fits, with 13 min to spare." in seen(usual["02-bench-period"])
    rows = period_of(bench_card(gas_dose())).rows
    assert rows[0][0] == 10 - 20 and [bell for bell, run, _ in rows if run == "45"] == [10 + 25]
    assert "The lamp goes on 10 min before the bell. It is 2 min too long for one lesson" in seen(sheet_page("02-bench-period"))


def test_lamps_on_a_circuit_are_counted_by_their_own_power(odd, usual):
    """230 V and 10 A carry 2300 W; four fifths of it feed 24 lamps of 75 W, and 3 of 600 W."""
    assert re.search(r"fuse of 10 A\s+24 ", seen(usual["03-risk-assessment"]))
    assert re.search(r"fuse of 10 A\s+3 ", seen(sheet_page("03-risk-assessment"))) and "70 mL of vinegar" in seen(sheet_page("03-risk-assessment"))


def test_vinegar_for_the_kitchen_uses_up_a_teaspoon_of_soda(usual):
    """A gram of bicarbonate takes 14.3 mL of 5 % vinegar (stoichiometry): 5 g take about 70 mL."""
    assert "70 mL, in place of water and acid" in seen(usual["10-letter-home"])
