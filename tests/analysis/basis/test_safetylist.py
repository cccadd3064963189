"""Cautions: the usual ones, and always who decides."""

import pytest

from kit.analysis.basis.safetylist import WORDS, safety


@pytest.mark.parametrize("codes", [(), ("lamp",), ("lamp", "glass", "boiling")])
def test_local_rules_and_an_adult_always_have_the_last_word(codes):
    cautions = safety(*codes)
    assert [caution.code for caution in cautions] == [*codes, "rules"]
    assert str(cautions[-1]) == "Your local rules come first. A qualified adult decides."


def test_cautions_are_short():
    assert all(len(text.split()) <= 25 for text in WORDS.values())
