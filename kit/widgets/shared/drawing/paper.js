// A canvas to draw on, sharp on every screen, and the pieces of a chart: axes with round numbers, lines, names.
// `view` is { width, height, font, colour, X, … }; X and the panel's Y are scales.

import { change } from "../page/elements.js";
import { ticks, ticksAlong } from "./scales.js";

export function paperOf(canvas, { width, height, font, colour }) {
  const ratio = window.devicePixelRatio || 1, c = canvas.getContext("2d");
  canvas.width = width * ratio; canvas.height = height * ratio;
  change(canvas, { style: `width:${width}px;height:${height}px` });
  c.scale(ratio, ratio);
  c.font = `${font}px ${colour("font-family")}`;
  return c;
}

export function stroke(c, points) {
  c.beginPath(); points.forEach(([x, y], i) => i ? c.lineTo(x, y) : c.moveTo(x, y)); c.stroke();
}

export function axisUp(c, { X, colour }, Y, most, zero = false) {
  c.lineWidth = 1; c.textAlign = "right"; c.textBaseline = "middle";
  for (const tick of ticksAlong(Y, most)) {
    c.strokeStyle = colour("--kit-grid"); c.fillStyle = colour("--kit-ink");
    stroke(c, [[X.from, Y.to(tick.at)], [X.until, Y.to(tick.at)]]);
    c.fillText(tick.text, X.from - 6, Y.to(tick.at));
  }
  if (zero && !Y.turned?.zero && Y.low < 0 && Y.high > 0) { c.strokeStyle = colour("--kit-ink"); stroke(c, [[X.from, Y.to(0)], [X.until, Y.to(0)]]); }
}

export function axisAcross(c, { X, colour, font, width }, bottom, title, unit = 1) { // `unit`: so much of X is 1 on the axis
  c.strokeStyle = c.fillStyle = colour("--kit-ink"); c.lineWidth = 1; c.textAlign = "center"; c.textBaseline = "top";
  stroke(c, [[X.from, bottom], [X.until, bottom]]);
  for (const tick of X.ticks ?? (X.turned ? ticksAlong(X, width < 500 ? 5 : 10) : ticks(X.low / unit, X.high / unit, width < 500 ? 5 : 10))) {
    const x = X.to(unit * tick.at);
    stroke(c, [[x, bottom], [x, bottom + 5]]);
    c.fillText(tick.text, x, bottom + 8);
  }
  c.fillText(title, (X.from + X.until) / 2, bottom + 8 + 1.3 * font);
}

export function nameAt(c, { colour, X, wide }, text, y, ink) { // a line's name at its end: beside it where there is room
  c.textAlign = wide ? "left" : "right"; c.textBaseline = "middle";
  c.lineWidth = 4; c.strokeStyle = colour("--kit-paper"); c.fillStyle = colour(ink);
  const x = wide ? X.until + 6 : X.until - 4;
  c.strokeText(text, x, y); c.fillText(text, x, y);
}
