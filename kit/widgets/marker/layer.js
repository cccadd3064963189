// The moving part of the picture: bands, handles and the step between baseline and response, in SVG over the canvas.

import { change, draw, say } from "../shared/page/elements.js";
import { between, clock } from "../shared/drawing/scales.js";
import { neighbours } from "./moves.js";
import { LETTERS, MEANING, WINDOWS } from "./words.js";

const HATCH = ["M-2,2 l4,-4 M0,8 l8,-8 M6,10 l4,-4", "M0,4 h8", "M-2,6 l4,4 M0,0 l8,8 M6,-2 l4,4"];
let views = 0;

export function layerOf(area) {
  const svg = draw("svg", { class: "kit-marker-layer" }, area), id = `kit-hatch-${++views}`;
  const defs = draw("defs", {}, svg);
  HATCH.forEach((d, i) => {
    const pattern = draw("pattern", { id: `${id}-${i}`, width: 8, height: 8, patternUnits: "userSpaceOnUse" }, defs);
    draw("path", { d, class: `kit-marker-hatch kit-window-${i}` }, pattern);
  });
  const bands = WINDOWS.map((name, i) => band(svg, i, `url(#${id}-${i})`));
  const titles = [0, 1, 2].map(() => draw("text", { class: "kit-marker-panel", "aria-hidden": "true" }, svg)), step = stepOf(svg);
  const grips = [0, 1, 2, 3, 4, 5].map(k => grip(svg, k));
  return { svg, bands, titles, step, grips };
}

function band(svg, i, hatch) {
  const group = draw("g", { class: `kit-marker-band kit-window-${i}`, "aria-hidden": "true" }, svg);
  const tint = draw("rect", { class: "kit-marker-tint" }, group), lines = draw("rect", { fill: hatch }, group);
  const bar = draw("rect", { class: "kit-marker-bar", rx: 3 }, group);
  const hold = draw("rect", { class: "kit-marker-hold" }, group); // the name is a handle too: a bar can be narrower than a finger
  const letter = draw("text", { class: "kit-marker-letter", "text-anchor": "middle" }, group);
  const name = draw("text", { class: "kit-marker-name" }, group), meaning = draw("text", { class: "kit-marker-meaning" }, group);
  letter.textContent = LETTERS[i];
  return { group, tint, lines, bar, hold, letter, name, meaning };
}

function grip(svg, k) {
  const name = `${WINDOWS[k >> 1]} ${k % 2 ? "end" : "start"}`;
  const group = draw("g", { role: "slider", tabindex: 0, "aria-label": name, "aria-orientation": "horizontal" }, svg);
  group.setAttribute("class", `kit-marker-grip kit-window-${k >> 1}`);
  const reach = draw("rect", { class: "kit-marker-reach" }, group), line = draw("line", { class: "kit-marker-edge" }, group);
  const flag = draw("rect", { class: "kit-marker-flag", rx: 4 }, group), arrow = draw("path", { class: "kit-marker-arrow" }, group);
  return { group, reach, line, flag, arrow };
}

function stepOf(svg) { // the two levels of the difference and the arrow between them: the number is this arrow's height
  const group = draw("g", { class: "kit-marker-step", "aria-hidden": "true" }, svg);
  const [from, to, carried, arrow, head] = ["line", "line", "line", "line", "path"].map(tag => draw(tag, {}, group));
  const size = draw("text", { class: "kit-marker-size", "text-anchor": "end" }, group);
  carried.setAttribute("class", "kit-marker-carried");
  return { group, from, to, carried, arrow, head, size };
}

export function fit(layer, view) { // what changes with the size only
  const { lanes, panels } = view, top = panels[0].top, bottom = panels.at(-1).bottom;
  change(layer.svg, { width: view.width, height: view.height });
  layer.titles.forEach((text, i) => { text.textContent = panels[i]?.title ?? ""; change(text, { x: 4, y: (panels[i]?.top ?? 0) - 7 }); });
  layer.bands.forEach((each, i) => {
    const y = lanes.top + i * lanes.height;
    for (const rect of [each.tint, each.lines]) change(rect, { y: top, height: bottom - top });
    for (const rect of [each.bar, each.hold]) change(rect, { y: y + 2, height: lanes.grip });
    for (const text of [each.letter, each.name, each.meaning]) text.setAttribute("y", y + 2 + lanes.grip / 2);
  });
  layer.grips.forEach((each, k) => {
    const y = lanes.top + (k >> 1) * lanes.height + 2, g = lanes.grip, x = k % 2 ? 0 : -g, middle = x + g / 2, out = k % 2 ? 1 : -1;
    change(each.flag, { x, y, width: g, height: g });
    change(each.arrow, { d: `M${middle - 3 * out},${y + g / 2 - 6} l${6 * out},6 l${-6 * out},6` });
    change(each.line, { y1: y, y2: bottom });
    change(each.reach, { y: top, height: bottom - top });
  });
}

export function place(layer, view, edges, limits) { // what changes with every move
  const at = edges.map(edge => view.X.to(edge));
  layer.bands.forEach((each, i) => placeBand(each, view, at[2 * i], at[2 * i + 1], i));
  layer.grips.forEach((each, k) => {
    const [low, high] = neighbours(edges, k, limits), hold = between((at[k | 1] - at[k & 6]) / 3, 2, 8);
    change(each.group, { transform: `translate(${at[k]},0)` });
    change(each.reach, { x: k % 2 ? -hold : -3, width: hold + 3 });
    change(each.group, { "aria-valuemin": low, "aria-valuemax": high, "aria-valuenow": edges[k], "aria-valuetext": clock(edges[k]) });
  });
}

function placeBand(each, view, from, to, i) {
  const wide = Math.max(1, to - from), { grip } = view.lanes, after = to + grip + 6;
  for (const rect of [each.tint, each.lines, each.bar]) change(rect, { x: from, width: wide });
  change(each.letter, { x: from + wide / 2 });
  const text = wide < 13 ? `${LETTERS[i]} ${WINDOWS[i]}` : WINDOWS[i], long = 8.8 * text.length, fits = after + long < view.width;
  const before = from - grip - 6;
  const within = !fits && before < long; // no room on either side: the name stands in the bar, in the letter's place
  const x = fits ? after : within ? from + (wide + long) / 2 : before, room = view.width - after - long > 7 * MEANING[i].length;
  each.letter.style.display = wide < 13 || within ? "none" : "";
  say(each.name, text);
  each.name.classList.toggle("kit-marker-inside", within && wide > long);
  say(each.meaning, room ? MEANING[i] : "");
  change(each.meaning, { x: after + long + 4 });
  change(each.name, { x: within ? from + wide / 2 : x, "text-anchor": within ? "middle" : fits ? "start" : "end" });
  change(each.hold, { x: fits ? x : x - long, width: long });
}

export function placeStep(step, view, edges, { levels, value }) {
  step.group.style.display = levels ? "" : "none";
  if (!levels) return;
  const { X } = view, { Y } = view.panels[1], [low, high] = levels.map(Y.to), x = X.to((edges[4] + edges[5]) / 2);
  change(step.from, { x1: X.to(edges[0]), x2: X.to(edges[1]), y1: low, y2: low });
  change(step.to, { x1: X.to(edges[4]), x2: X.to(edges[5]), y1: high, y2: high });
  change(step.carried, { x1: X.to(edges[1]), x2: x, y1: low, y2: low });
  change(step.arrow, { x1: x, x2: x, y1: low, y2: high });
  const out = Math.sign(high - low), tip = Math.min(8, Math.abs(high - low) / 2);
  change(step.head, { d: `M${x - 5},${high - out * tip} L${x},${high} L${x + 5},${high - out * tip}` });
  say(step.size, Math.abs(high - low) < 24 ? "" : value);
  change(step.size, { x: X.to(edges[4]) - 8, y: (low + high) / 2 });
}
