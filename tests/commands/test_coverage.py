"""`check --coverage`: it prints its tables, takes one study alone, and its exit status says whether every bar is kept."""

import pytest

from kit.coverage.study import Figure, Row, Study
from kit.commands import coverage


def of(value):
    figure = Figure("covers %", value, 0.7, low=93.5)
    return Study("tiny", "A tiny one.", lambda runs=None: iter([Row(f"{runs} runs", (figure, Figure("half-width °C", 0.0123, places=4)))]))


@pytest.mark.parametrize("value, status, last", [(95.0, 0, "Every bar is kept."), (90.0, 1, "Some bars are not kept: see MISSES above.")])
def test_the_exit_status_tells_whether_every_bar_is_kept(monkeypatch, capsys, value, status, last):
    monkeypatch.setattr(coverage, "studies", lambda: [of(value)])
    assert coverage.main(["--only", "tiny", "--runs", "50"]) == status
    head, names, row, _, end = [line for line in capsys.readouterr().out.splitlines() if line]
    assert head == "tiny: A tiny one. ± is one Monte-Carlo standard error."
    assert names.split("  ")[-1].strip() == "half-width °C" and row.startswith("50 runs") and row.endswith("0.0123")
    assert end == last and ("MISSES" in row) == bool(status)


def test_every_study_has_a_name_of_its_own():
    names = [study.name for study in coverage.studies()]
    assert len(set(names)) == len(names) and {"noise", "drift", "vessels", "steady"} <= set(names)


def test_a_name_that_is_no_study_is_refused_with_those_that_are(capsys):
    with pytest.raises(SystemExit):
        coverage.main(["--only", "nothing"])
    assert "'noise', 'drift'" in capsys.readouterr().err
