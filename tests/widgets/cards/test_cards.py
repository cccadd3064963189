"""A card shows its own faults and answers every press."""

import traitlets

from kit.faults import Fault
from kit.widgets.cards.card import Card, buttons, choices, lettered, text
from tests.widgets.parts import block_of, press


def test_a_press_is_answered_and_the_card_drawn_anew():
    said = []
    card = Card("x", "A card", lambda: [text("said", " ".join(said))], say=lambda values: said.append(values["word"]))
    assert press(card, "say", word="hello") == "" and block_of(card, "said")["text"] == "hello"


def test_a_fault_while_answering_is_the_status_line():
    def refuse(_values):
        raise Fault("Mark the baseline first.")

    assert press(Card("x", "A card", lambda: [], go=refuse), "go") == "Mark the baseline first."


def test_a_fault_while_drawing_takes_the_place_of_the_blocks():
    def draw():
        raise Fault("There is no lesson '98'.")

    assert Card("x", "A card", draw).blocks == [text("fault", "There is no lesson '98'.", tone="fault")]


def test_a_strange_press_is_survived():
    card = Card("x", "A card", lambda: [text("here", "still here")], go=lambda values: values["missing"])
    assert press(card, "go").startswith("The kit met something it did not expect (KeyError") and block_of(card, "here")


def test_nothing_is_sent_when_nothing_changed():
    card, sent = Card("x", "A card", lambda: [choices("c", "Which?", lettered(["one", "two"])), buttons("do", ("go", "Go"))]), []
    card.observe(sent.append, traitlets.All)
    card.redraw()
    assert sent == [] and card.blocks[0]["options"] == [["a", "one"], ["b", "two"]]
