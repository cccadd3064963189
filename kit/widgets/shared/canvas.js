// The still part of the picture: axes and lines on a canvas, drawn anew only when the size or the theme changes.

import { change } from "./elements.js";
import { between, ticks } from "./scales.js";

const LINES = { treated: { dash: [], width: 2.2 }, control: { dash: [8, 4], width: 2.2 }, difference: { dash: [2, 3], width: 2 } };

export function paint(canvas, view) {
  const ratio = window.devicePixelRatio || 1, c = canvas.getContext("2d");
  canvas.width = view.width * ratio; canvas.height = view.height * ratio;
  change(canvas, { style: `width:${view.width}px;height:${view.height}px` });
  c.scale(ratio, ratio);
  c.font = `${view.font}px ${view.colour("font-family")}`;
  for (const panel of view.panels) paintPanel(c, view, panel);
  paintTime(c, view);
}

function paintPanel(c, view, panel) {
  const { X, colour } = view, { Y } = panel;
  c.lineWidth = 1; c.textAlign = "right"; c.textBaseline = "middle";
  for (const tick of ticks(Y.low, Y.high, panel.ticks)) {
    c.strokeStyle = colour("--kit-grid"); c.fillStyle = colour("--kit-ink");
    stroke(c, [[X.from, Y.to(tick.at)], [X.until, Y.to(tick.at)]]);
    c.fillText(tick.text, X.from - 6, Y.to(tick.at));
  }
  if (panel.zero && Y.low < 0 && Y.high > 0) { c.strokeStyle = colour("--kit-ink"); stroke(c, [[X.from, Y.to(0)], [X.until, Y.to(0)]]); }
  for (const line of panel.lines) paintLine(c, view, panel, line);
  labels(c, view, panel);
}

function paintTime(c, view) {
  const { X, colour } = view, bottom = view.panels.at(-1).bottom;
  c.strokeStyle = c.fillStyle = colour("--kit-ink"); c.lineWidth = 1; c.textAlign = "center"; c.textBaseline = "top";
  stroke(c, [[X.from, bottom], [X.until, bottom]]);
  for (const tick of ticks(X.low / 60, X.high / 60, view.width < 500 ? 5 : 10)) {
    stroke(c, [[X.to(60 * tick.at), bottom], [X.to(60 * tick.at), bottom + 5]]);
    c.fillText(tick.text, X.to(60 * tick.at), bottom + 8);
  }
  c.fillText("time in minutes", (X.from + X.until) / 2, bottom + 8 + 1.3 * view.font);
}

function stroke(c, points) {
  c.beginPath(); points.forEach(([x, y], i) => i ? c.lineTo(x, y) : c.moveTo(x, y)); c.stroke();
}

// 20,000 readings share 800 columns of pixels: each column shows its lowest to highest reading as a pale band, its mean as the line.
function columns(times, row, X, gap) {
  const parts = []; let part = null, last = null, column = null;
  for (let i = 0; i < times.length; i++) {
    if (Number.isNaN(row[i])) { part = null; continue; }
    if (last !== null && times[i] - last > gap) part = null;
    if (!part) { parts.push(part = []); column = null; }
    const at = Math.round(X.to(times[i]));
    if (!column || column.at !== at) part.push(column = { at, low: row[i], high: row[i], sum: 0, count: 0 });
    column.low = Math.min(column.low, row[i]); column.high = Math.max(column.high, row[i]); column.sum += row[i]; column.count++;
    last = times[i];
  }
  return parts;
}

function paintLine(c, view, panel, line) {
  const { dash, width } = LINES[line.name] ?? LINES.treated, { Y } = panel;
  c.strokeStyle = c.fillStyle = view.colour(`--kit-${line.name}`);
  for (const part of columns(view.times, line.row, view.X, view.gap)) {
    const middle = part.map(p => [p.at, Y.to(p.sum / p.count)]);
    c.globalAlpha = 0.28; c.beginPath();
    part.forEach(p => c.lineTo(p.at, Y.to(p.high)));
    [...part].reverse().forEach(p => c.lineTo(p.at, line.filled ? panel.bottom : Y.to(p.low)));
    c.fill(); c.globalAlpha = 1;
    c.lineWidth = width; c.setLineDash(dash); c.lineJoin = "round";
    if (middle.length === 1) c.fillRect(middle[0][0] - 1.5, middle[0][1] - 1.5, 3, 3); else stroke(c, middle);
    c.setLineDash([]);
  }
}

// Names stand at the lines' ends: to their right where there is room, else above the upper and below the lower one.
function labels(c, view, panel) {
  const placed = panel.lines.filter(line => line.label).map(line => ({ ...line, y: panel.Y.to(lastReading(line.row)) }));
  const named = placed.sort((a, b) => a.y - b.y), least = 1.25 * view.font, beside = view.wide;
  named.forEach((line, i) => {
    if (!beside) line.y += i === named.length - 1 && named.length > 1 ? least : -1.1 * least;
    else if (i && line.y - named[i - 1].y < least) line.y = named[i - 1].y + least;
    line.y = between(line.y, panel.top + 0.5 * view.font, panel.bottom - 0.5 * view.font);
    c.textAlign = beside ? "left" : "right"; c.textBaseline = "middle";
    c.lineWidth = 4; c.strokeStyle = view.colour("--kit-paper"); c.fillStyle = view.colour(`--kit-${line.name}`);
    const x = beside ? view.X.until + 6 : view.X.until - 4;
    c.strokeText(line.label, x, line.y); c.fillText(line.label, x, line.y);
  });
}

function lastReading(row) {
  let i = row.length - 1;
  while (i > 0 && Number.isNaN(row[i])) i--;
  return row[i];
}
