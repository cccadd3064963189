"""The page of tickets: one for each learner, names as they are written, an address and a code that say the same, nothing asked of anyone."""

import os
import re

import pytest

from kit.classroom import give_tickets, place_in, tickets_on, withdraw_ticket, write_sheet
from tests.classroom.serving import needs_hub

pytestmark = needs_hub
ADDRESS = "http://192.0.2.7:8000"


@pytest.fixture
def place(tmp_path):
    return place_in(tmp_path / "class", make=True)


def written(place, learners, names=(), apart=True):
    given, _ = give_tickets(place, learners, names)
    write_sheet(place, ADDRESS, given, apart)
    return given, place.sheet.read_text(encoding="utf-8")


def test_each_learner_has_one_and_the_page_can_be_read_back(place):
    given, text = written(place, 30)
    assert text.count('class="ticket"') == text.count("<svg") == 30 and tickets_on(place) == (given, ADDRESS)
    assert not re.search(r"""(src|href)=|@import|url\(|<script""", text)
    withdraw_ticket(place, "07")
    assert "07" not in tickets_on(place)[0]


def test_a_name_with_markup_is_a_name(place):
    _, text = written(place, 1, ["<img src=x onerror=alert(1)> & \"co\""])
    assert "<b>&lt;img src=x onerror=alert(1)&gt; &amp; &quot;co&quot;</b>, number 01" in text and "<img" not in text


def test_it_says_whether_folders_are_apart(place):
    together = written(place, 1, apart="Only Linux can do that.")[1]
    write_sheet(place, ADDRESS, {}, True)
    apart = place.sheet.read_text(encoding="utf-8")
    assert "not kept apart</strong> on this computer: Only Linux can do that." in together and "not kept apart" not in apart


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such modes")
def test_only_the_owner_may_read_it(place):
    written(place, 1)
    assert place.sheet.stat().st_mode & 0o777 == 0o600


def test_without_a_page_there_is_nothing_to_read_back(place):
    give_tickets(place, 1)
    assert tickets_on(place) == ({}, "")


def test_the_code_holds_address_and_ticket_as_the_standard_has_it(place):
    """ISO/IEC 18004:2015, 6.3.2: the three finder patterns; and the same modules as segno gives for the text (2.5 is their quiet zone's edge)."""
    import segno

    given, text = written(place, 1)
    wanted = segno.make(f"{ADDRESS}/hub/ticket#{given['01']}", error="m")
    path = re.search(r'<path[^>]* d="([^"]+)"', wanted.svg_inline(scale=3, border=2, omitsize=True, svgclass=None, lineclass=None))[1]
    assert path in text and wanted.error == "M"
