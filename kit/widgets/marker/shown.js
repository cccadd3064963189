// The windows as they stand now: bands, handles, boxes, the step. Owner of `m.edges` and `m.view`.

import { paint } from "../shared/run/canvas.js";
import { change } from "../shared/page/elements.js";
import { coloursOf } from "../shared/page/look.js";
import { layout } from "../shared/run/layout.js";
import { clock, minutes } from "../shared/drawing/scales.js";
import { fit, place, placeStep } from "./layer.js";
import { neighbours } from "./moves.js";

export function moveTo(m, edges) {
  m.edges = edges;
  show(m);
}

export function fitIn(m) { // what the width, or the theme, changes
  m.view = layout(Math.max(280, m.frame.root.clientWidth), m.picture, m.data, coloursOf(m.frame.root));
  paint(m.frame.canvas, m.view);
  fit(m.layer, m.view);
  show(m);
}

export function showBoxes(m) {
  m.frame.boxes.forEach((box, k) => {
    const [low, high] = neighbours(m.edges, k, m.limits);
    const text = minutes(m.edges[k]);
    if (!box.dataset.typing && box.value !== text) box.value = text; // an answer that comes late must not wipe out what is being typed
    change(box, { "aria-valuenow": text, "aria-valuetext": clock(m.edges[k]) });
    change(box, { "aria-valuemin": minutes(low), "aria-valuemax": minutes(high) });
  });
}

function show(m) {
  place(m.layer, m.view, m.edges, m.limits);
  placeStep(m.layer.step, m.view, m.edges, m.reading);
  showBoxes(m);
}
