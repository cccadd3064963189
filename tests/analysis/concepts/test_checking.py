"""The concept check: pairs, counts question by question, when a gain is told, and files that are odd."""

import pytest

from kit import chart, concept_check
from kit.analysis.concepts import INVENTED_SHEETS
from kit.analysis.concepts.inventing import invented_sheets, KEY
from kit.coursework import ConceptSheet, CONCEPTS, read_concept_sheets, read_lesson, write_concept_sheets
from kit.faults import Fault

EASY = "these questions were too easy for this class."
BY_THEN = "How large g is can't be told: by then these questions were too easy."
SHORT = " in place of 8. Type a point for a question left out. This sheet is not counted yet."
WRONG = "aaaaaaaa"  # one of them right: question 6


def sheets(before, after):
    """Sheets of as many learners as there are texts; one text each."""
    pairs = (("before", before), ("after", after))
    return [ConceptSheet(when, f"k{place}", letters) for when, every in pairs for place, letters in enumerate(every)]


def class_of(learners, right_before=2, right_after=5):
    """A class in which learners differ by one answer."""
    mixed = lambda right, place: KEY[: right + place % 2] + "." * (8 - right - place % 2)
    return sheets([mixed(right_before, n) for n in range(learners)], [mixed(right_after, n // 2) for n in range(learners)])


def test_the_eight_questions_have_the_key_and_one_idea_for_each_miss():
    lesson = read_lesson(CONCEPTS)
    assert "".join("abcd"[each.choices.index(each.right)] for each in lesson.questions) == KEY
    assert all(choice.idea for each in lesson.questions for choice in each.choices if not choice.right)
    assert all(len(each.choices) == 4 and each.hint for each in lesson.questions)


def test_the_invented_class_says_so_and_its_file_is_what_the_recipe_gives():
    check = concept_check()
    assert str(check).startswith("Invented class. Gained: more was right after than before. g is ")
    assert read_concept_sheets(INVENTED_SHEETS) == invented_sheets()
    assert check.learners == 24 and [len(check.only[when]) for when in ("before", "after")] == [2, 1]


def test_which_idea_was_chosen_before_and_which_after():
    item = concept_check(sheets(["aaaaaaaa", "baaaaaaa"], ["baaaaaaa", "c.aaaaaa"])).items[0]
    assert item.rows[:3] == [
        ("a", "The sun's heat no longer gets into it.", 1, 0, "the way in closes"),
        ("b", "It gives off as much as it takes in.", 1, 1, "right"),
        ("c", "It is full and can take no more.", 0, 1, "things fill up with heat"),
    ]
    assert dict(item.moved) == {("a", "b"): 1, ("b", "c"): 1}
    assert str(item) == "Question 1: 1 of 2 right before, 1 after. The idea most held now: things fill up with heat (1)."


def test_codes_pair_the_sheets_whatever_their_letters_and_spaces():
    check = concept_check([ConceptSheet("before", " Ma 07", WRONG), ConceptSheet("after", "ma07", KEY)])
    assert check.learners == 1 and check.only == {"before": (), "after": ()}
    assert str(check) == "Cannot tell: 1 learner took both sheets. A gain needs 8 or more: read question by question."


def test_who_was_missing_is_said():
    told = class_of(10)[:-2]
    check = concept_check(told)
    assert check.learners == 8 and check.only == {"before": ("k8", "k9"), "after": ()}
    assert "2 learners of 10 took one sheet only." in str(check.explain()) and "before only: k8 and k9; after only: nobody" in check._repr_html_()
    assert "k8" not in str(check.to_dict())


@pytest.mark.parametrize(
    "told, reason",
    [
        ([], "Cannot tell: 0 learners took both sheets. A gain needs 8 or more: read question by question."),
        (class_of(7), "Cannot tell: 7 learners took both sheets. A gain needs 8 or more: read question by question."),
        (sheets([KEY] * 9, [KEY] * 9), f"Cannot tell: before, all together missed 0 answers only. A gain needs 3 or more: {EASY}"),
        (sheets([KEY] * 5 + [WRONG] * 4, [KEY] * 9), f"Cannot tell: before, all together missed 28 answers; after, none. {BY_THEN}"),
        (sheets([WRONG] * 9, [KEY] * 9), f"Gained: before, all together missed 63 answers; after, none. {BY_THEN}"),
        (sheets([WRONG] * 9, ["b" + WRONG[1:]] * 9), "Cannot tell: all learners changed alike, so nothing shows how much is chance."),
    ],
)  # fmt: skip
def test_a_gain_that_nothing_stands_behind_is_not_told(told, reason):
    check = concept_check(told)
    assert str(check) == reason and check.gain.text == "not determined" and check.explain()
    assert chart(check).layout.meta["title"] == reason


def test_more_less_and_what_may_be_chance():
    up, down = concept_check(class_of(12)), concept_check(class_of(12, 5, 2))
    flat = concept_check(class_of(12, 4, 4))
    assert (up.verdict, down.verdict, flat.verdict) == ("gained", "lost", "cannot tell")
    assert flat.reason.endswith("The range holds 0: this may be chance.")
    assert concept_check(class_of(12), level=0.99).gain.half_width > up.gain.half_width


@pytest.mark.parametrize(
    "odd, doubt",
    [
        (("before", "k0", "bcdbdaxb"), "Before, code k0: question 7: 'x' is none of a to d. It counts as left out."),
        (("before", "k0", "bcd"), f"Before, code k0: it has 3 letters{SHORT}"),
        (("before", "k0", ". . . ."), "Before, code k0: no answer is typed. This sheet is not counted."),
        (("before", " ", "bcdbdacb"), "Before, code missing: a sheet without a code can't be paired. It is not counted."),
        (("later", "k0", "bcdbdacb"), "Later, code k0: the first column must say before or after. This sheet is not counted."),
        (("before", "<script>alert(1)</script>", "b"), f"Before, code <script>alert(1)</sc: it has 1 letter{SHORT}"),
    ],
)  # fmt: skip
def test_an_odd_sheet_is_said_and_keeps_no_other_from_counting(odd, doubt):
    check = concept_check([ConceptSheet(*odd), *class_of(12)[1:]])
    assert check.doubts == (doubt,) and check.learners >= 11
    assert "<script" not in check._repr_html_()


def test_a_code_on_two_sheets_of_one_pile_counts_for_nobody():
    check = concept_check([*class_of(12), ConceptSheet("before", "K3", KEY)])
    assert check.learners == 11 and check.only["after"] == ("k3",)
    assert check.doubts == tuple(
        f"Before, code {code}: this code stands on two sheets or more of this pile, so nobody knows which is whose. None of them is counted."
        for code in ("k3", "K3")
    )


def test_more_sheets_than_learners_change_nothing_and_order_does_not_count():
    told = class_of(12)
    assert concept_check(told[::-1]).gain == concept_check(told).gain


def test_a_file_that_holds_no_sheets_is_a_fault(tmp_path):
    (tmp_path / "run.csv").write_text("elapsed_s,treated\n0,1\n")
    message = "run.csv holds no sheets of a concept check: its first line must be sheet,code,item_1,item_2 and so on. It is 'elapsed_s,treated'."
    with pytest.raises(Fault) as caught:
        concept_check(tmp_path / "run.csv")
    assert str(caught.value) == message


def test_sheets_come_back_from_the_file_as_they_were_typed(tmp_path):
    typed = ("before", "=1+1", "bcdbdacb"), ("after", "k1", "bcd"), ("after", "k2", ""), ("before", "ö,3", ".c.b..cb")
    told = tuple(ConceptSheet(*each) for each in typed)
    write_concept_sheets(tmp_path / "c.csv", told)
    assert read_concept_sheets(tmp_path / "c.csv") == told
    assert "\nbefore,'=1+1," in (tmp_path / "c.csv").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "data", [b"", b"\x00\x01\x02", b"sheet,code,answers\nbefore,k1,bcdbdacb\nafter\n", "Sheet;Code;item_1\nBefore;ä1;b\n".encode("cp1252")]
)
def test_any_bytes_are_read_or_refused_in_words(tmp_path, data):
    (tmp_path / "c.csv").write_bytes(data)
    try:
        assert concept_check(tmp_path / "c.csv").verdict == "cannot tell"
    except Fault as fault:
        assert str(fault).startswith("c.csv holds no sheets of a concept check")
