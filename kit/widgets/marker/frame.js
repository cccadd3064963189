// The parts around the picture: how to begin, the number, the boxes for minutes, undo, and the record as a table.

import { button, fold, make, table } from "../shared/page/elements.js";
import { LETTERS, MEANING, WINDOWS } from "./words.js";

const HELP = "Drag a window by its name, or one edge by its arrow. Or type minutes below.";
const KEYS = `Tab goes from edge to edge. Arrows move an edge by one step, with Shift by ten. Ctrl and an arrow move the whole window. \
Home and End go as far as the neighbour. Ctrl+Z takes a move back.`;

export function frameOf(picture, id) {
  const line = name => make("p", { class: `kit-marker-${name}` });
  const frame = {
    area: make("div", { class: "kit-marker-area" }), canvas: make("canvas", { role: "img", "aria-label": picture.summary }),
    number: make("strong"), sentence: line("sentence"), condition: line("condition"), trouble: line("trouble"),
    status: make("p", { role: "status", class: "kit-unseen" }),
    boxes: WINDOWS.flatMap((name, i) => ["start", "end"].map(end => box(`${name} ${end}, minutes`, i))),
    buttons: { undo: button("Undo"), redo: button("Redo"), again: button("Start again") },
  };
  const help = make("p", { class: "kit-marker-help", id: `${id}-help` }, HELP), said = `Windows of the run ${picture.name}`;
  frame.area.prepend(frame.canvas);
  frame.root = make("div", { class: "kit-marker", role: "group", tabindex: "-1", "aria-label": said, "aria-describedby": help.id },
    help, frame.area, answerOf(frame), frame.status,
    make("div", { class: "kit-marker-windows" }, ...WINDOWS.map((name, i) => windowRow(name, i, frame.boxes))),
    make("div", { class: "kit-marker-buttons" }, ...Object.values(frame.buttons)),
    fold("Keys", make("p", {}, KEYS)),
    fold("As a table", make("p", {}, picture.summary), table("About one reading a minute", picture.head, picture.table)));
  return frame;
}

function answerOf(frame) {
  const value = make("p", { class: "kit-marker-value" }, "Extra warming of the treated vessel: ", frame.number);
  return make("div", { class: "kit-marker-answer" }, value, frame.trouble, frame.sentence, frame.condition);
}

function box(name, i) { // text, not number: a decimal comma and 10:30 are welcome in every browser
  const kind = { type: "text", inputmode: "decimal", role: "spinbutton", autocomplete: "off", size: 6 };
  return make("input", { ...kind, "aria-label": name, class: `kit-window-${i}` });
}

function windowRow(name, i, boxes) {
  const word = text => make("span", { "aria-hidden": "true" }, text);
  const badge = make("b", { class: `kit-marker-badge kit-window-${i}`, "aria-hidden": "true" }, LETTERS[i]);
  return make("div", { class: "kit-marker-window", role: "group", "aria-label": name },
    make("p", {}, badge, make("b", {}, ` ${name}`), `: ${MEANING[i]}`),
    make("div", { class: "kit-marker-minutes" }, word("from"), boxes[2 * i], word("to"), boxes[2 * i + 1], word("min")));
}
