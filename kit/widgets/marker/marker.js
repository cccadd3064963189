// Window marker: canvas lines, SVG bands, six slider handles. Handles follow the hand in the same frame; Python answers with the number.
// The parts share one object `m`. What is in it from here on stays; the rest has one owner each, named in that file's first lines.

import { keepKeys } from "../shared/page/elements.js";
import { newName } from "../shared/line.js";
import { onLook } from "../shared/page/look.js";
import { sumsOf } from "../shared/run/means.js";
import { numbers } from "../shared/drawing/scales.js";
import { listen } from "./answer.js";
import { frameOf } from "./frame.js";
import { begin, button, cancel, chord, dragging, pressed, typed } from "./hand.js";
import { layerOf } from "./layer.js";
import { fitIn, showBoxes } from "./shown.js";

const UP_OR_DOWN = ["ArrowUp", "ArrowDown", "PageUp", "PageDown"]; // the other keys move within what is typed in a box

function render({ model, el }) {
  let end = shown(model, el);
  const anew = () => { end(); end = shown(model, el); }; // another run: other lines, other limits
  model.on("change:picture", anew);
  return () => { model.off("change:picture", anew); end(); };
}

function shown(model, el) {
  const ended = new AbortController(), m = stateOf(model, ended.signal);
  connect(m);
  el.replaceChildren(m.frame.root);
  onLook(m.frame.root, ended.signal, () => fitIn(m));
  fitIn(m);
  listen(m);
  return () => ended.abort();
}

function stateOf(model, life) {
  const picture = model.get("picture"), times = numbers(model.get("times")), all = numbers(model.get("lines"));
  const rows = picture.rows.map((_, j) => all.subarray(j * times.length, (j + 1) * times.length));
  const me = newName(), frame = frameOf(picture, me), layer = layerOf(frame.area);
  const exact = numbers(model.get("readings"), Float64Array), sums = sumsOf(exact.subarray(0, times.length), exact.subarray(times.length));
  const limits = { low: times[0], high: times.at(-1), least: picture.least };
  const m = { model, life, me, picture, frame, layer, limits, sums, edges: model.get("edges"), reading: model.get("answer"), data: { times, rows, gap: picture.gap }, step: picture.step };
  begin(m, "nobody");
  return m;
}

function connect(m) {
  const on = (element, kind, heard) => element.addEventListener(kind, heard, { signal: m.life }), { frame, layer } = m;
  layer.bands.forEach((band, i) => dragging(m, band.group, { window: i }));
  layer.grips.forEach((grip, k) => { dragging(m, grip.group, { edge: k }); on(grip.group, "keydown", event => pressed(m, k, event)); });
  frame.boxes.forEach((box, k) => {
    const done = () => { delete box.dataset.typing; };
    on(box, "input", () => { box.dataset.typing = "yes"; });
    on(box, "change", () => { done(); typed(m, k, box.value); });
    on(box, "blur", () => { done(); showBoxes(m); });
    on(box, "keydown", event => { if (UP_OR_DOWN.includes(event.key)) { done(); pressed(m, k, event); } });
  });
  for (const kind of Object.keys(frame.buttons)) on(frame.buttons[kind], "click", () => button(m, kind));
  on(frame.root, "keydown", event => {
    const kind = chord(event);
    if (kind) { event.preventDefault(); event.stopPropagation(); button(m, kind); }
    if (event.key === "Escape" && m.held) cancel(m);
  });
  keepKeys(frame.root, m.life);
}

export default { render };
