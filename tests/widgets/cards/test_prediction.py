"""A prediction is kept before the run is seen, comes back word for word, and is never marked."""

from pathlib import Path

import pytest

from kit.analysis.effect.paired import paired_effect
from kit.coursework.answers.answers import answers_path, read_answers
from kit.records.windows import Windows
from kit.widgets.cards.gate import after
from kit.widgets.marker.marker import mark_windows
from kit.widgets.cards.prediction import predict, recall
from tests.widgets.invented import invented_run
from tests.widgets.parts import block_of, buttons_of, options_of, press, words

GOOD = Windows.of_perturbation(11)


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def marker():
    return mark_windows(invented_run())


def kinds():
    return [(each.card, each.kind) for each in read_answers(answers_path("00")).answers]


class TestPredict:
    def test_a_prediction_is_kept_with_its_words_and_shown_back(self):
        card = predict("00.warmer")
        assert press(card, "keep", choice="c", sure="fairly sure", because=" gas is heavy ") == ""
        (answer,) = read_answers(answers_path("00")).answers
        kept = {"choice": "c", "words": "Up to 1 °C warmer", "because": "gas is heavy", "sure": "fairly sure"}
        assert (answer.card, answer.kind, answer.content) == ("00.warmer", "prediction", kept)
        assert "Up to 1 °C warmer (fairly sure). Because: gas is heavy" in words(card) and buttons_of(card) == []

    @pytest.mark.parametrize(
        ("values", "asked"),
        [
            ({}, "Two more clicks: choose one answer, and say how sure you are."),
            ({"choice": "a"}, "One more click: say how sure you are."),
            ({"sure": "sure"}, "One more click: choose one answer."),
        ],
    )
    def test_half_an_answer_is_asked_for_and_not_kept(self, values, asked):
        card = predict("00.warmer")
        assert press(card, "keep", **values) == asked
        assert not answers_path("00").exists() and buttons_of(card) == ["keep", "skip"]

    def test_skipping_is_kept_too(self):
        card = predict("00.warmer")
        assert press(card, "skip") == "Skipped. What was kept back is open now."
        assert kinds() == [("00.warmer", "skipped")] and "You chose to look first." in words(card)

    def test_it_is_there_again_in_a_new_kernel(self, monkeypatch):
        press(predict("00.warmer"), "keep", choice="d", sure="sure", because="")
        monkeypatch.setattr("kit.widgets.cards.prediction.keeping_of", fresh_keeping)
        assert "1 to 3 °C warmer (sure)." in words(predict("00.warmer"))

    def test_a_damaged_file_is_set_aside_and_said_on_the_card(self):
        Path("00-answers.json").write_text("{", encoding="utf-8")
        said = "The file 00-answers.json could not be read. It is kept unchanged as 00-answers-damaged-1.json; "
        assert block_of(predict("00.warmer"), "damage")["text"] == said + "new answers go into a new file."

    def test_a_full_disk_is_said_and_the_card_still_asks(self, monkeypatch):
        card = predict("00.warmer")
        monkeypatch.setattr("os.replace", lambda *_: (_ for _ in ()).throw(OSError(28, "No space left on device")))
        said = "This could not be kept in 00-answers.json (No space left on device). "
        assert press(card, "keep", choice="a", sure="sure") == said + "Free some space or ask for help with the folder, then try again."
        assert buttons_of(card) == ["keep", "skip"]


class TestAfter:
    def test_it_holds_back_until_kept_and_opens_by_itself(self):
        thing = mark_windows(invented_run())
        gate = after("00.warmer", thing)
        assert "Go to Step 3" in words(gate.children[0]) and thing not in gate.children
        press(predict("00.warmer"), "keep", choice="a", sure="a guess")
        assert gate.children == (thing,)

    def test_skipping_opens_it_and_another_prediction_does_not(self):
        gate = after("00.warmer", lambda: mark_windows(invented_run()))
        press(predict("00.nocontrol"), "keep", choice="a", sure="sure")
        assert len(gate.children) == 1 and "Go to Step 3" in words(gate.children[0])
        press(predict("00.warmer"), "skip")
        assert gate.children[0].windows

    def test_slow_work_waits_and_is_done_once(self):
        calls = []
        after("00.warmer", lambda: calls.append(1) or "done")
        assert calls == []
        press(predict("00.warmer"), "skip")
        press(predict("00.warmer"), "keep", choice="a", sure="sure")
        assert calls == [1]

    def test_what_was_decided_in_an_earlier_session_is_open_at_once(self, monkeypatch):
        press(predict("00.warmer"), "skip")
        monkeypatch.setattr("kit.widgets.cards.gate.keeping_of", fresh_keeping)
        assert after("00.warmer", "a result").children[0].outputs[0]["data"]["text/plain"] == "'a result'"

    def test_a_figure_goes_in_as_a_figure(self):
        import plotly.graph_objects as go

        press(predict("00.warmer"), "skip")
        (output,) = after("00.warmer", go.Figure(go.Scatter(x=["a"], y=[2]))).children[0].outputs
        assert output["data"]["application/vnd.plotly.v1+json"]["data"][0]["type"] == "scatter"

    def test_a_fault_in_the_thing_is_told_in_its_place(self):
        press(predict("00.warmer"), "skip")
        gate = after("00.warmer", lambda: Windows((3, 2), (4, 5), (6, 7)))
        assert "The baseline must start before it ends. It was given 3 to 2 minutes." in words(gate.children[0])


class TestRecall:
    def test_it_waits_for_the_prediction(self, marker):
        card = recall("00.warmer", marker)
        assert "First your prediction, in Step 3." in words(card) and "°C" not in words(card)

    def test_the_run_says_no_more_than_the_marks_can(self, marker):
        press(predict("00.warmer"), "keep", choice="d", sure="sure")
        card = recall("00.warmer", marker)
        assert "The run can't say yet Your perturbation window does not hold the moment the gas went in yet." in words(card)
        assert "°C (" not in words(card) and buttons_of(card) == []

    def test_it_lays_the_prediction_beside_the_result_as_it_is_now(self, marker):
        press(predict("00.warmer"), "keep", choice="b", sure="sure")
        card = recall("00.warmer", marker)
        marker.windows = GOOD
        said = f"You said No clear difference (sure). What came out {paired_effect(marker.run, GOOD)}"
        assert said in words(card) and "Worth a second look: something else came out." in words(card)

    def test_a_prediction_that_came_true_is_said_to_fit(self, marker):
        press(predict("00.warmer"), "keep", choice="d", sure="a guess")
        marker.windows = GOOD
        assert "Your prediction fits what came out." in words(recall("00.warmer", marker))

    def test_keep_or_change_is_kept_with_its_reason_and_can_be_given_again(self, marker):
        press(predict("00.warmer"), "keep", choice="b", sure="sure")
        marker.windows = GOOD
        card = recall("00.warmer", marker)
        assert press(card, "keep") == "Choose first: keep your answer, or change it."
        assert "b" not in options_of(card) and options_of(card)["keep"] == "I keep my answer."
        press(card, "keep", decision="keep", because="")
        press(card, "keep", decision="d", because="the gap grows")
        looks = read_answers(answers_path("00")).of("00.warmer", "second look")
        assert [each.content["words"] for each in looks] == ["", "1 to 3 °C warmer"]
        assert "you changed it to: 1 to 3 °C warmer. Because: the gap grows" in words(card)
        assert "No clear difference (sure)." in words(card)

    def test_somebody_who_looked_first_is_asked_for_nothing(self, marker):
        press(predict("00.warmer"), "skip")
        assert buttons_of(recall("00.warmer", marker)) == []

    def test_leaving_out_the_control_or_the_baseline_is_shown_with_this_runs_numbers(self, marker):
        press(predict("00.nocontrol"), "keep", choice="b", sure="sure")
        marker.windows = GOOD
        effect = paired_effect(marker.run, GOOD)
        ways = dict(block_of(recall("00.nocontrol", marker), "ways")["pairs"])
        gap = marker.run.difference().loc[20.5 * 60 : 21.5 * 60].mean()
        assert ways["With control and baseline"] == effect.warming.value_text
        assert ways["Control left out"] == f"{effect.treated_change.value:.2f} °C" and ways["Baseline left out"] == f"{gap:.2f} °C"

    def test_without_a_marker_the_kept_marks_give_the_numbers(self, marker, monkeypatch):
        monkeypatch.setattr("kit.widgets.cards.numbers.example_run", lambda _: marker.run)
        press(predict("00.warmer"), "keep", choice="d", sure="sure")
        assert "No windows are marked yet." in words(recall("00.warmer"))
        marker.windows = GOOD
        assert str(marker.effect) in words(recall("00.warmer"))


def fresh_keeping(lesson):
    """What a new kernel would have: answers read from the file again."""
    from kit.widgets.cards.keeping import Keeping

    return Keeping(answers_path(lesson))


def test_a_line_of_the_settings_that_is_not_used_is_named(folder):
    (folder / "class-settings.toml").write_text("[vessel]\ndepth_cm = 400\n", encoding="utf-8")
    told = next(block for block in predict("00.warmer").blocks if block["key"].startswith("unfit"))
    assert told["text"] == "class-settings.toml, line 2: depth_cm can be a number from 3 to 30 (cm). It was given 400. It is left out."
