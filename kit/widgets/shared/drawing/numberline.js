// Bars on one axis with 0 marked. A single bar is a dot with its range; several are changes that add up.

import { draw, make } from "../page/elements.js";
import { between, scale, ticks } from "./scales.js";

const TALL = 24, SIDE = 14;

export function paintBars(figure, bars, words, width, held = []) { // `held`: values for which the axis keeps room, so that it stands still
  const [low, high] = span(bars, held), X = scale(low, high, SIDE, width - SIDE), mark = bars.length === 1 ? dot : block;
  figure.setAttribute("aria-label", words);
  const label = bar => make("p", { class: "kit-watch-label" }, make("b", {}, bar.label), ` ${bar.text}`);
  figure.replaceChildren(...bars.flatMap(bar => [label(bar), barOf(X, bar, width, mark)]), axisOf(X, bars[0].unit, width));
}

function span(bars, held) { // room for every end and for 0
  const ends = held.concat(bars.flatMap(bar => [bar.from, bar.to, bar.low, bar.high])).filter(end => end !== null);
  const low = Math.min(0, ...ends), high = Math.max(0, ...ends), margin = Math.max(0.08 * (high - low), 0.05);
  return [low - margin, high + margin];
}

function barOf(X, bar, width, mark) {
  const svg = draw("svg", { width, height: TALL });
  draw("line", { class: "kit-watch-zero", x1: X.to(0), x2: X.to(0), y1: 0, y2: TALL }, svg);
  mark(svg, X, bar);
  range(svg, X, bar, width);
  return svg;
}

function dot(svg, X, bar) {
  draw("circle", { class: "kit-watch-dot kit-line-difference", cx: X.to(bar.to), cy: TALL / 2, r: 6 }, svg);
}

function block(svg, X, bar) {
  const from = X.to(Math.min(bar.from, bar.to)), wide = Math.max(1, Math.abs(X.to(bar.to) - X.to(bar.from)));
  draw("rect", { class: `kit-watch-block kit-line-${bar.line}`, x: from, y: 3, width: wide, height: TALL - 6 }, svg);
}

function range(svg, X, bar, width) { // an open end runs to the edge as an arrow
  const ends = [bar.low === null ? 4 : X.to(bar.low), bar.high === null ? width - 4 : X.to(bar.high)], y = TALL / 2;
  const tip = (x, out) => `M${x + 7 * out},${y - 6} L${x},${y} L${x + 7 * out},${y + 6}`;
  const cap = (x, open, out) => draw("path", { class: "kit-watch-range", d: open ? tip(x, out) : `M${x},${y - 7} v14` }, svg);
  draw("line", { class: "kit-watch-range", x1: ends[0], x2: ends[1], y1: y, y2: y }, svg);
  cap(ends[0], bar.low === null, 1);
  cap(ends[1], bar.high === null, -1);
}

function axisOf(X, unit, width) {
  const svg = draw("svg", { width, height: 42 });
  const text = (x, y, words, anchor) => { draw("text", { x, y, "text-anchor": anchor }, svg).textContent = words; };
  draw("line", { class: "kit-watch-axis", x1: SIDE, x2: width - SIDE, y1: 1, y2: 1 }, svg);
  for (const tick of ticks(X.low, X.high, width < 420 ? 4 : 8)) {
    draw("line", { class: "kit-watch-axis", x1: X.to(tick.at), x2: X.to(tick.at), y1: 1, y2: 6 }, svg);
    text(X.to(tick.at), 20, tick.text, "middle");
  }
  text(between(X.to(0), 36, width - 36), 36, "no change", "middle");
  if (X.to(0) < width - 110) text(width - SIDE, 36, unit, "end"); else text(SIDE, 36, unit, "start");
  return svg;
}
