"""What `lab` opens."""


def test_a_notebook_runs_and_nothing_leaves_the_machine(page, open_notebook, run_all):
    open_notebook(page, ["from IPython.display import HTML", "HTML(f'<p role=status>{6 * 7}</p>')"])
    run_all(page)
    assert page.get_by_role("status").filter(has_text="42").count() == 1


def test_axe_finds_a_fault_where_there_is_one(page, open_notebook, run_all, axe):
    open_notebook(page, ["from IPython.display import HTML; HTML('<button></button>')"])
    run_all(page)
    assert [rule for rule, _ in axe(page)] == ["button-name"]
