// What a hand does: drag, press keys, type, undo. Each ends in `put`, which moves the handles at once and then asks Python.
// Owner of `m.gesture`, `m.held` and `m.resting`.

import { secondsTyped } from "../shared/drawing/scales.js";
import { foresee, remark } from "./answer.js";
import { keyed, movedEdge, movedWindow, refusalOf, remarkOn, typedEdge } from "./moves.js";
import { moveTo, showBoxes } from "./shown.js";

const REST = 25; // milliseconds until a hand that stopped counts as at rest
const SAME_KEYS = 1000; // milliseconds: key presses closer together are one move, taken back by one undo
let gestures = 0;

export function begin(m, who) {
  m.gesture = { who, base: m.edges, id: `${m.me}:${++gestures}`, at: performance.now() };
}

function put(m, next, words = "") {
  remark(m, words);
  if (next.every((edge, k) => edge === m.edges[k])) return;
  foresee(m, next);
  moveTo(m, next);
  m.line.ask({ kind: "move", edges: m.edges, gesture: m.gesture.id });
  clearTimeout(m.resting);
  m.resting = setTimeout(() => settle(m), REST);
}

function settle(m) {
  clearTimeout(m.resting);
  if (m.life.aborted) return;
  m.line.ask({ kind: "rest", edges: m.edges, gesture: m.gesture.id });
}

function aim(m, target, to) { // `to`: seconds at which the edge, or the start of the whole window, should stand
  const { base } = m.gesture, whole = "window" in target;
  const next = whole ? movedWindow(base, target.window, to, m.limits) : movedEdge(base, target.edge, to, m.limits);
  put(m, next, remarkOn(base, next, target.edge ?? 2 * target.window, to, m.limits));
}

export function dragging(m, handle, target) {
  const seconds = event => m.view.X.back(event.clientX - m.layer.svg.getBoundingClientRect().left);
  const on = (kind, heard) => handle.addEventListener(kind, heard, { signal: m.life });
  let offset = null;
  on("pointerdown", event => {
    if (event.button) return;
    event.preventDefault();
    handle.setPointerCapture(event.pointerId);
    grab(m, target);
    offset = seconds(event) - m.edges[target.edge ?? 2 * target.window];
  });
  on("pointermove", event => { if (m.held && offset !== null) aim(m, target, m.step * Math.round((seconds(event) - offset) / m.step)); });
  for (const end of ["pointerup", "pointercancel"]) on(end, () => { if (offset !== null) drop(m); offset = null; });
}

function grab(m, target) {
  m.layer.grips[target.edge ?? 2 * target.window].group.focus({ preventScroll: true });
  begin(m, target);
  m.held = true;
  m.frame.root.classList.add("kit-marker-held");
}

function drop(m) {
  m.held = false;
  m.frame.root.classList.remove("kit-marker-held");
  if (m.edges !== m.gesture.base) settle(m);
}

export function cancel(m) {
  put(m, m.gesture.base);
  drop(m);
}

export function pressed(m, k, event) { // a key on the handle or in the box of edge k
  const to = keyed(m.edges, k, event, m.limits, m.step);
  if (to === null) return;
  event.preventDefault();
  const whole = event.ctrlKey || event.metaKey, who = `${whole ? "window" : "edge"} ${k}`;
  if (m.gesture.who !== who || performance.now() - m.gesture.at > SAME_KEYS) begin(m, who);
  m.gesture.at = performance.now();
  if (whole) aim(m, { window: k >> 1 }, m.edges[k & 6] + to - m.edges[k]);
  else aim(m, { edge: k }, to);
}

export function typed(m, k, text) {
  const to = secondsTyped(text);
  if (to === null) {
    remark(m, `"${text.trim().slice(0, 20)}" is not a time in minutes. Type 10.5 or 10:30, say.`);
    return showBoxes(m);
  }
  const next = typedEdge(m.edges, k, to, m.limits), refusal = refusalOf(m.edges, next, k, to, m.limits);
  begin(m, "box");
  put(m, refusal ? m.edges : next, refusal || remarkOn(m.edges, next, k, to, m.limits));
  showBoxes(m);
}

export function button(m, kind) {
  if (m.frame.buttons[kind].getAttribute("aria-disabled") === "true") return;
  clearTimeout(m.resting);
  remark(m, "");
  begin(m, kind);
  m.line.ask({ kind, gesture: m.gesture.id }, { dropped: false });
}

export function chord(event) { // Ctrl+Z, Ctrl+Y, Ctrl+Shift+Z; on a Mac with Cmd
  if (!event.ctrlKey && !event.metaKey) return null;
  const letter = event.key.toLowerCase();
  if (letter === "y" || (letter === "z" && event.shiftKey)) return "redo";
  return letter === "z" ? "undo" : null;
}
