"""The packages of each group."""

from kit.bootstrap.requirements import fingerprint, requirements


def stated(folder, requirements_text, test_list):
    (folder / "requirements.txt").write_text(requirements_text)
    (folder / "pyproject.toml").write_text(f"[project.optional-dependencies]\ntest = {test_list}\n")
    return folder


def test_comments_are_no_packages_and_tests_need_the_learners_packages_too(tmp_path):
    checkout = stated(tmp_path, "# why\nb>=1,<2\n\na\n", '["pytest>=9"]')
    assert requirements("lab", checkout) == ["b>=1,<2", "a"]
    assert requirements("test", checkout) == ["b>=1,<2", "a", "pytest>=9"]


def test_a_fingerprint_changes_with_a_package_and_not_with_a_comment(tmp_path):
    before = fingerprint("lab", stated(tmp_path, "a>=1\n", "[]"))
    assert fingerprint("lab", stated(tmp_path, "# said\na>=1\n", "[]")) == before
    assert fingerprint("lab", stated(tmp_path, "a>=2\n", "[]")) != before


def test_the_kit_itself_states_both_groups():
    lab, test = requirements("lab"), requirements("test")
    assert test[: len(lab)] == lab and any(each.startswith("jupyterlab>=") for each in lab)
    assert [any(each.startswith("pytest>=") for each in group) for group in (lab, test)] == [False, True]
