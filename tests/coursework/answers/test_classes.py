"""What a learner decided about a class: the newest word on each class counts, and nothing that was said before is lost."""

from kit.coursework import add_answer, Answer, CLASS_CARD, CLASS_KIND, class_choices, ClassChoices, Kept, read_answers


def decided(name, left_out, turned=()):
    return Answer(CLASS_CARD, CLASS_KIND, {"name": name, "left_out": left_out, "turned": list(turned)})


def test_the_newest_choices_for_each_class_count_and_the_older_ones_stay_on_the_disk(tmp_path):
    kept, path = Kept(), tmp_path / "answers.json"
    for answer in (decided("ours", {"Slate": ""}), decided("ours", {"Slate": "knocked"}, ["Chert"]), decided("theirs", {})):
        kept = add_answer(path, answer, kept.answers)
    assert class_choices(read_answers(path)) == (ClassChoices("ours", (("Slate", "knocked"),), ("Chert",)), ClassChoices("theirs"))
    assert class_choices(kept, "ours")[0].left_out == (("Slate", "knocked"),) and len(kept.of(CLASS_CARD)) == 3
    assert class_choices(kept, "nobody's") == () == class_choices(Kept())
