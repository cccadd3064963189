"""The folder of a class: made, known again, refused where it holds something else; and a new term."""

import pytest

from kit.classroom import addresses, give_tickets, place_in, read_tickets
from kit.faults import Fault


def said(folder, **how):
    with pytest.raises(Fault) as fault:
        place_in(folder, **how)
    return str(fault.value)


def test_it_is_made_once_and_found_again(tmp_path):
    made = place_in(tmp_path / "a class" / "of 30", make=True)
    assert place_in(made.root) == place_in(made.root, make=True) == made
    assert made.keys() == made.keys() and {len(key) for key in made.keys().values()} == {64}


def test_a_folder_with_something_else_is_left_alone(tmp_path):
    (tmp_path / "taxes.ods").touch()
    assert said(tmp_path, make=True) == (
        f"{tmp_path} holds something else (taxes.ods). A class needs a folder of its own: name one that does not exist yet, or leave the name out."
    )
    assert said(tmp_path / "taxes.ods", make=True) == f"{tmp_path / 'taxes.ods'} is a file. Name a folder for the class."
    assert [path.name for path in tmp_path.iterdir()] == ["taxes.ods"]


def test_where_no_class_is_kept_it_says_how_to_start_one(tmp_path):
    assert said(tmp_path / "x") == f"No class is kept in {tmp_path / 'x'}. Start one there with: python3 -m kit serve {tmp_path / 'x'}"


def test_a_new_term_forgets_every_secret_and_keeps_the_work(tmp_path):
    place = place_in(tmp_path / "class", make=True)
    give_tickets(place, 2)
    before = place.keys()
    for name in ("cookie_secret", "hub.sqlite"):
        (place.state / name).touch()
    (place.home("01") / "marks").mkdir(parents=True)
    place.sheet.touch()
    place.forget()
    assert not list(place.state.iterdir()) and not place.sheet.exists() and (place.home("01") / "marks").is_dir()
    assert read_tickets(place).given == 0 and not set(place.keys().values()) & set(before.values())


def test_addresses_are_those_that_others_can_reach():
    """RFC 1122 3.2.1.3 and RFC 3927: 127.0.0.0/8 is this computer itself, 169.254.0.0/16 is given where no network gave one."""
    from ipaddress import ip_address

    found = [ip_address(each) for each in addresses()]
    assert len(found) == len(set(found)) and not any(each.is_loopback or each.is_link_local or each.is_unspecified for each in found)
