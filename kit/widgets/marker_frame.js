// The parts around the picture: how to begin, the number, the boxes for minutes, undo, and the record as a table.

const MEANING = ["the quiet time just before the change", "the gas goes in", "the time in which we read the result"];
const HELP = "Drag a window by its name, or one edge by its arrow. Or type minutes below.";
const KEYS = "Keys: Tab goes from edge to edge. Arrows move an edge by one step, with Shift by ten. Ctrl and an arrow move the whole window. Home and End go as far as the neighbour. Ctrl+Z takes a move back.";

function frameOf(picture, id) {
  const frame = {
    area: make("div", { class: "kit-marker-area" }),
    canvas: make("canvas", { role: "img", "aria-label": picture.summary }),
    number: make("strong"), sentence: make("p", { class: "kit-marker-sentence" }),
    condition: make("p", { class: "kit-marker-condition" }), trouble: make("p", { class: "kit-marker-trouble" }), status: make("p", { role: "status", class: "kit-unseen" }),
    boxes: WINDOWS.flatMap((name, i) => ["start", "end"].map(end => box(`${name} ${end}, minutes`, i))),
    buttons: { undo: pushButton("Undo"), redo: pushButton("Redo"), again: pushButton("Start again") },
  };
  const help = make("p", { class: "kit-marker-help", id: `${id}-help` }, HELP);
  const value = make("p", { class: "kit-marker-value" }, "Extra warming of the treated vessel: ", frame.number);
  frame.area.prepend(frame.canvas);
  frame.root = make("div", { class: "kit-marker", role: "group", tabindex: "-1", "aria-label": `Windows of the run ${picture.name}`, "aria-describedby": help.id },
    help, frame.area, make("div", { class: "kit-marker-answer" }, value, frame.sentence, frame.condition, frame.trouble), frame.status,
    make("div", { class: "kit-marker-windows" }, ...WINDOWS.map((name, i) => windowRow(name, i, frame.boxes))),
    make("div", { class: "kit-marker-buttons" }, ...Object.values(frame.buttons)),
    fold("Keys", make("p", {}, KEYS)), fold("As a table", make("p", {}, picture.summary), table("About one reading a minute", picture.head, picture.table)));
  return frame;
}

function box(name, i) {
  return make("input", { type: "text", inputmode: "decimal", role: "spinbutton", autocomplete: "off", size: 6, "aria-label": name, class: `kit-window-${i}` });
}

function windowRow(name, i, boxes) {
  const title = make("p", { class: "kit-marker-title" }, make("b", { class: `kit-marker-badge kit-window-${i}`, "aria-hidden": "true" }, LETTERS[i]),
    make("b", {}, ` ${name}`), make("span", {}, `: ${MEANING[i]}`));
  return make("div", { class: "kit-marker-window", role: "group", "aria-label": name }, title,
    make("div", { class: "kit-marker-minutes" }, make("span", { "aria-hidden": "true" }, "from"), boxes[2 * i], make("span", { "aria-hidden": "true" }, "to"), boxes[2 * i + 1], make("span", { "aria-hidden": "true" }, "min")));
}

const pushButton = text => make("button", { type: "button" }, text);
const fold = (title, ...inside) => make("details", {}, make("summary", {}, title), make("div", { class: "kit-fold" }, ...inside));
