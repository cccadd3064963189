// Lines over one axis each way, on a canvas: lines with their names, the last lines as ghosts, bands, level lines, dots.
// An SVG lies over it for what the hand moves: `upright(name)` is a grip that stands on the time axis, say.

import { change, draw, make } from "../page/elements.js";
import { gripping } from "../page/grip.js";
import { coloursOf, onLook } from "../page/look.js";
import { axisAcross, axisUp, nameAt, paperOf, stroke } from "./paper.js";
import { between, degrees, scale } from "./scales.js";

const FONT = 13, TOP = 26, FOOT = 44, GRIP = 30, APART = 16, NEAR = 80; // pixels from one name to the next; dots nearer than that could share a place
const DASHES = { control: [8, 4], difference: [2, 3] };

// x and y: { title, low, high }, x may bring its own `ticks` { at, text }; `height` of the panel. `show({ lines, bands, levels, dots })`, all in the axes' own units:
// lines { x, y, look, name } (the name under its end where `below`), bands { from, to, name } from top to bottom (named at the foot where `low`), levels { y, name, `along` the axis by such a part }, dots { x, y, low, high, look, name },
// span [low, high] where y's axis follows the answer, and across where x's does. An axis whose title names °C bears the class's unit; `reading` on it
// (or in what is shown, for y): readings of a thermometer, not differences.
export function plot(v, { x, y, height = 200, grips = 0 }) {
  const canvas = make("canvas", { role: "img" }), layer = draw("svg", { class: "kit-layer" }), node = make("div", { class: "kit-plot" }, canvas, layer);
  const fitted = [], top = TOP + grips * GRIP;
  let shown = {}, ghosts = [], past = [], view = null;

  const inC = axis => axis.title.includes("°C"), titled = axis => axis.title.replace("°C", v.unit);
  const along = (axis, from, to) => Object.assign(scale(axis.low, axis.high, from, to), inC(axis) ? { turned: degrees(v.unit, axis.reading) } : {});
  function fit() {
    if (!node.clientWidth) return;
    const width = node.clientWidth, wide = width >= 560, left = 52, right = wide ? 104 : 16;
    const X = Object.assign(along(x, left, width - right), { from: left, until: width - right, ticks: x.ticks });
    view = { width, height: top + height + FOOT, font: FONT, wide, colour: coloursOf(node), X, Y: along(y, top + height, top), top, bottom: top + height };
    layer.setAttribute("width", width); layer.setAttribute("height", view.height);
    paint();
    fitted.forEach(each => each(view));
  }
  function paint() {
    if (!view) return;
    const c = paperOf(canvas, view);
    for (const band of shown.bands ?? []) paintBand(c, view, band);
    axisUp(c, view, view.Y, 5, true);
    axisAcross(c, view, view.bottom, titled(x));
    c.textAlign = "left"; c.textBaseline = "alphabetic"; c.fillText(titled(y), 4, TOP - 13); // above the flags
    for (const each of shown.levels ?? []) paintLevel(c, view, each);
    const lines = [...past.map((line, i) => ({ ...line, look: "ghost", name: i ? "" : "before" })), ...shown.lines ?? []]; // one name tells of all
    for (const line of lines) paintLine(c, view, line);
    paintNames(c, view, lines.filter(line => line.name));
    for (const dot of shown.dots ?? []) paintDot(c, view, dot);
    paintDotNames(c, view, (shown.dots ?? []).filter(dot => dot.name));
  }
  function upright(name, lane = 0) { // the flag stands in its lane above the plot, the whole line can be taken hold of
    const group = draw("g", { class: "kit-hand" }, layer), flag = TOP - 4 + lane * GRIP, middle = flag + 13;
    const reach = draw("rect", { class: "kit-reach", x: -22, width: 44, y: middle - 22 }, group), line = draw("line", { class: "kit-edge", y1: flag + 26 }, group);
    draw("rect", { class: "kit-dot", x: -13, y: flag, width: 26, height: 26, rx: 5 }, group);
    draw("path", { class: "kit-arrow", d: `M-3,${middle - 5} l-5,5 l5,5 M3,${middle - 5} l5,5 l-5,5` }, group);
    gripping(v, name, group, event => view.X.back(event.clientX - layer.getBoundingClientRect().left));
    const place = values => {
      if (!view) return;
      change(group, { transform: `translate(${view.X.to(values[name])},0)` });
      change(line, { y2: view.bottom });
      change(reach, { height: view.bottom - middle + 22 });
    };
    v.follow(place);
    fitted.push(() => place(v.values));
  }
  function reached(span = [y.low, y.high], across = [x.low, x.high], reading = y.reading) { // either axis may be Python's to say: [low, high]
    if (`${[...span, ...across, reading]}` === `${[y.low, y.high, x.low, x.high, y.reading]}`) return paint();
    y.reading = reading;
    [y.low, y.high] = span;
    [x.low, x.high] = across;
    fit();
  }
  function show(next) { // of the last lines those that lie elsewhere now
    shown = next;
    past = ghosts.filter(ghost => !(next.lines ?? []).some(line => alike(line.x, ghost.x) && alike(line.y, ghost.y)));
    reached(next.span, next.across, next.reading);
  }
  v.onBegin(() => { ghosts = shown.lines ?? []; });
  onLook(node, v.life, fit);
  return { node, layer, upright, show, forget: () => { ghosts = past = []; paint(); }, onFit: heard => fitted.push(heard) };
}

function alike(one, other) {
  return one.length === other.length && one.every((at, i) => at === other[i]);
}

const inkOf = ({ look = "treated" }) => look === "ghost" ? "--kit-soft" : `--kit-${look}`;

function paintLine(c, view, { x, y, look = "treated" }) {
  const { X, Y } = view, ghost = look === "ghost";
  c.save();
  c.beginPath(); c.rect(X.from, view.top, X.until - X.from, view.bottom - view.top); c.clip();
  c.strokeStyle = view.colour(inkOf({ look })); c.lineWidth = ghost ? 1.5 : 2.4; c.lineJoin = "round"; c.setLineDash(ghost ? [3, 4] : DASHES[look] ?? []);
  stroke(c, x.map((at, i) => [X.to(at), Y.to(y[i])]));
  c.restore();
}

function paintNames(c, view, lines) { // each beside its line's end, none over another
  const high = view.top + 6, low = view.bottom - 8, beside = ({ look, below }) => look === "ghost" || below ? 14 : -10;
  const names = lines.map(line => ({ line, y: between(view.Y.to(line.y.at(-1)) + beside(line), high, low) })).sort((a, b) => a.y - b.y);
  names.forEach((each, i) => { if (i) each.y = Math.max(each.y, names[i - 1].y + APART); });
  names.reduceRight((limit, each) => (each.y = Math.min(each.y, limit)) - APART, low);
  for (const { line, y } of names) nameAt(c, view, line.name, y, inkOf(line));
}

function paintBand(c, view, { from, to, name = "", look = "difference", low = false }) {
  const { X } = view, left = X.to(between(from, X.low, X.high)), right = X.to(between(to, X.low, X.high));
  c.fillStyle = view.colour(`--kit-${look}`);
  c.globalAlpha = 0.16; c.fillRect(left, view.top, right - left, view.bottom - view.top); c.globalAlpha = 1;
  if (right <= left) return;
  const over = left + 4 + c.measureText(name).width > X.until; // a narrow band at the right end: its name ends there
  c.textAlign = over ? "right" : "left"; c.textBaseline = low ? "bottom" : "top"; c.fillText(name, over ? X.until - 4 : left + 4, low ? view.bottom - 4 : view.top + 4);
}

function paintLevel(c, view, { y, name = "", along = 0 }) {
  const { X, Y } = view, at = Y.to(y);
  c.strokeStyle = c.fillStyle = view.colour("--kit-ink"); c.lineWidth = 1.2;
  c.save(); c.setLineDash([2, 4]); stroke(c, [[X.from, at], [X.until, at]]); c.restore();
  c.textAlign = "left"; c.textBaseline = "bottom"; c.fillText(name, X.from + 6 + along * (X.until - X.from), at - 2);
}

function paintDot(c, view, { x, y, low = null, high = null, look = "treated" }) {
  const at = view.X.to(x), up = view.Y.to(y);
  c.strokeStyle = c.fillStyle = view.colour(`--kit-${look}`); c.lineWidth = 2;
  if (low !== null) stroke(c, [[at, view.Y.to(low)], [at, view.Y.to(high)]]);
  c.beginPath(); c.arc(at, up, 5, 0, 2 * Math.PI); c.fill();
}

function paintDotNames(c, view, dots) { // beside their dots and within the picture, none over another
  const names = dots.map(dot => ({ ...dot, at: view.X.to(dot.x), up: view.Y.to(dot.y) })).sort((a, b) => a.up - b.up);
  names.forEach((each, i) => { if (i && Math.abs(each.at - names[i - 1].at) < NEAR) each.up = Math.max(each.up, names[i - 1].up + APART); });
  for (const { at, up, look = "treated", name } of names) {
    const left = at + 9 + c.measureText(name).width > view.width;
    c.fillStyle = view.colour(`--kit-${look}`); c.textAlign = left ? "right" : "left"; c.textBaseline = "middle"; c.lineWidth = 4; c.strokeStyle = view.colour("--kit-paper");
    c.strokeText(name, left ? at - 9 : at + 9, up); c.fillText(name, left ? at - 9 : at + 9, up);
  }
}
