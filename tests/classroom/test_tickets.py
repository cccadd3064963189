"""Tickets: drawn, kept as hashes only, taken back; and the names that a teacher brings."""

import hashlib
import json
import math
import os
import re

import pytest

from kit.classroom import give_tickets, names_in_file, number_of, place_in, read_tickets, withdraw_ticket
from kit.classroom.tickets import GROUPS, IN_GROUP, LETTERS
from kit.faults import Fault


@pytest.fixture
def place(tmp_path):
    return place_in(tmp_path / "class", make=True)


def test_a_ticket_is_long_enough_to_be_guessed_by_nobody():
    """31 letters, 12 of them: log2(31 ** 12) bits, computed. That this is enough where 4 are tried a second is common practice, no source."""
    assert len(set(LETTERS)) == len(LETTERS) == 31 and GROUPS * IN_GROUP * math.log2(len(LETTERS)) > 59
    assert not set("01lio") & set(LETTERS)


def test_tickets_are_new_each_time_and_only_their_hashes_are_kept(place):
    given, register = give_tickets(place, 3)
    assert list(given) == ["01", "02", "03"] and all(re.fullmatch(r"[a-z2-9]{4}-[a-z2-9]{4}-[a-z2-9]{4}", each) for each in given.values())
    kept = (place.state / "tickets.json").read_text()
    assert len(set(given.values())) == 3 and not any(ticket in kept for ticket in given.values())
    assert json.loads(kept)["numbers"] == {hashlib.sha256(ticket.replace("-", "").encode()).hexdigest(): number for number, ticket in given.items()}
    assert read_tickets(place) == register


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such modes")
def test_only_the_owner_may_read_them(place):
    give_tickets(place, 1)
    assert (place.state / "tickets.json").stat().st_mode & 0o777 == 0o600
    assert place.state.stat().st_mode & 0o777 == place.homes.stat().st_mode & 0o777 == 0o700


def test_however_it_is_typed_it_is_the_same_ticket(place):
    given, _ = give_tickets(place, 2)
    assert [number_of(place, typed) for typed in ("2", "02", given["02"].upper(), f" {given['02'].replace('-', ' ')} ")] == ["02"] * 4


def test_more_learners_get_further_numbers_and_the_others_keep_their_tickets(place):
    first, _ = give_tickets(place, 2)
    withdraw_ticket(place, "01")
    more, register = give_tickets(place, 3, ["Ada"])
    assert list(more) == ["03"] and sorted(register.numbers.values()) == ["02", "03"] and number_of(place, first["02"]) == "02"
    assert register.names == {"01": "Ada"}


def test_a_ticket_taken_back_opens_nothing_and_the_number_may_get_another(place):
    given, _ = give_tickets(place, 1)
    assert withdraw_ticket(place, "01") is None and read_tickets(place).numbers == {}
    new = withdraw_ticket(place, "01", anew=True)
    assert number_of(place, new) == "01"
    with pytest.raises(Fault) as fault:
        number_of(place, given["01"])
    assert str(fault.value) == f"{given['01']} is no ticket that is in use, and no learner's number."


def test_a_damaged_register_says_what_to_do(place):
    (place.state / "tickets.json").write_text("{")
    with pytest.raises(Fault) as fault:
        read_tickets(place)
    assert str(fault.value) == (
        f"{place.state / 'tickets.json'} is damaged. Make new tickets with: python3 -m kit serve new-term. The work stays."
    )


def test_names_are_read_as_they_are_meant(tmp_path):
    path = tmp_path / "names.txt"
    path.write_bytes("\ufeffZoë  O'Neill\r\n\r\n<b>Ada</b>\t& Co\n\u202eevil\u0007\n".encode() + ("x" * 80).encode())
    assert names_in_file(path) == ["Zoë O'Neill", "<b>Ada</b> & Co", "evil", "x" * 60 + "…"]


@pytest.mark.parametrize("content, said", [(b"\n \n", "holds no names. Write one name a line."), (b"a\n" * 100, "holds 100 names. One class has at most 99.")])
def test_a_list_without_names_or_with_too_many(content, said, tmp_path):
    path = tmp_path / "names.txt"
    path.write_bytes(content)
    with pytest.raises(Fault) as fault:
        names_in_file(path)
    assert str(fault.value) == f"{path} {said}"


def test_a_list_that_is_no_text_says_how_to_save_it(tmp_path):
    (tmp_path / "names.xlsx").write_bytes(b"PK\x03\x04\xff\xfe")
    with pytest.raises(Fault, match=r"can't be read as a list of names .*Save it as plain text in UTF-8, one name a line\.$"):
        names_in_file(tmp_path / "names.xlsx")
