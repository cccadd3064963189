// A run on a canvas: axes and lines, drawn anew only when the size or the theme changes.

import { axisAcross, axisUp, nameAt, paperOf, stroke } from "../drawing/paper.js";
import { between } from "../drawing/scales.js";

const LINES = { treated: { dash: [], width: 2.2 }, control: { dash: [8, 4], width: 2.2 }, difference: { dash: [2, 3], width: 2 } };

export function paint(canvas, view) {
  const c = paperOf(canvas, view);
  for (const panel of view.panels) {
    axisUp(c, view, panel.Y, panel.ticks, panel.zero);
    for (const line of panel.lines) paintLine(c, view, panel, line);
    labels(c, view, panel);
  }
  axisAcross(c, view, view.panels.at(-1).bottom, "time in minutes", 60);
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
  const named = placed.sort((a, b) => a.y - b.y), least = 1.25 * view.font;
  named.forEach((line, i) => {
    if (!view.wide) line.y += i === named.length - 1 && named.length > 1 ? least : -1.1 * least;
    else if (i && line.y - named[i - 1].y < least) line.y = named[i - 1].y + least;
    line.y = between(line.y, panel.top + 0.5 * view.font, panel.bottom - 0.5 * view.font);
    nameAt(c, view, line.label, line.y, `--kit-${line.name}`);
  });
}

function lastReading(row) {
  let i = row.length - 1;
  while (i > 0 && Number.isNaN(row[i])) i--;
  return row[i];
}
