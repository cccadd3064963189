"""The pooled class as the desk has it, the class page and the bench sheets: complete, safe, and nothing from outside."""

import re
from dataclasses import replace
from datetime import datetime
from xml.etree import ElementTree

import pytest

from kit import bench_card, class_effect, example_class, gas_dose
from kit.desk import Unread, bench_sheets, class_page, collect, next_runs, pool_runs, suspect_runs
from kit.examples import DATASETS


@pytest.fixture(scope="module")
def class_():
    return collect(DATASETS / "class")


@pytest.fixture(scope="module")
def html(class_):
    odd = replace(class_.runs[0], name="<script>alert(1)</script>", group="=1+1")
    unread = Unread("<img src=x>", "It is damaged.", "Elm")
    came = replace(class_, runs=(odd, *class_.runs[1:]), unread=(unread,))
    return class_page(came, pool_runs(came), datetime(2026, 11, 27, 9, 0))


def test_the_desk_pools_as_the_public_verb_does(class_):
    mine, public = pool_runs(class_).mean, class_effect(example_class()).mean
    assert (mine.value, mine.low, mine.high) == (public.value, public.low, public.high)


def test_slate_is_opened_for_a_second_look(class_):
    assert suspect_runs(class_, pool_runs(class_)) == ("slate",)


def test_a_swap_and_thermometers_that_a_teacher_names_count(class_):
    effect = pool_runs(class_, swapped=("slate", "flint"), own_thermometers=True)
    assert effect.side is not None and "thermometers" not in [caution.code for caution in effect.cautions]


def test_the_next_run_names_what_is_missing_first(class_):
    few = replace(class_, runs=class_.runs[:3], unread=(Unread("x.csv", "It is empty.", "x"),))
    first, second, *_ = next_runs(few, pool_runs(few))
    assert first == "Have 1 file handed in again: nobody knows yet what is in it." and second.startswith("Make 1 more run in other groups")
    assert any("swap their vessels" in each for each in next_runs(class_, pool_runs(class_)))


def test_a_class_page_holds_all_that_a_reader_asks_for(html):
    for wanted in ("What we found", "All groups", "What is open", "The next run to do", "Each run", "Safety", "slate (look again)", "1 file could"):
        assert wanted in html, wanted
    assert "Ask: Elm." not in html  # whose file was damaged is told on the desk alone
    pictures = re.findall(r"<svg.*?</svg>", html, re.S)
    assert len(pictures) == 9 and all(ElementTree.fromstring(each) is not None for each in pictures)


def test_no_name_runs_as_markup_and_nothing_comes_from_outside(html):
    assert "<script" not in html and "<img" not in html and "&lt;script&gt;" in html
    assert not re.search(r"<link|\bsrc=|@import|url\(", html.replace("&lt;img src=x&gt;", ""))
    assert set(re.findall(r'https?://[^"\s<]+', html)) <= {"http://www.w3.org/2000/svg"}


def test_a_bench_sheet_for_each_group_on_a_page_of_its_own():
    cards = [bench_card(gas_dose(tablets=4, groups=2), 10, name) for name in ("Basalt", "<b>Flint</b>")]
    html = bench_sheets(cards)
    assert html.count("Record sheet. Group: ") == 2 and "Group: Basalt" in html and "<b>Flint" not in html
    assert "#group-1 { break-before: page; }" in html and "#group-0" not in html
