// Lesson 09: a row and a bar for each group of a class, the class's own bars above them; its range runs down through all rows.
// Names and reasons are the learners': they go in as text, never as markup.

import { button, change, make, say } from "../shared/page/elements.js";
import { plot } from "../shared/drawing/plot.js";
import { between, scale, ticks } from "../shared/drawing/scales.js";
import { controlOf, viewOf } from "../shared/view/view.js";

const PAUSE_MS = 400, MOVE_MS = 250;

export default { render: viewOf(v => {
  const over = overOf(), means = make("div", { class: "kit-board-means" }), axis = make("div", { class: "kit-board-axis", "aria-hidden": "true" });
  const list = make("ul", { class: "kit-board-rows" }), open = openedOf(v), bars = new Map(), groups = new Map();
  let before = null, last = null;
  ["left_out", "opened", "turned", "mouths"].forEach(name => v.held.add(name));
  const controls = ["groups", "pairs", "truth", "order"].filter(name => name in v.grips).map(name => controlOf(v, name));
  v.onBegin(() => { before = last; });
  const show = answer => {
    const X = scale(...answer.span, 0, 100);
    means.replaceChildren(...answer.means.map(each => meanShown(kept(bars, each.key, meanOf), X, each)));
    last = answer.means[0] ?? null;
    overShown(over, X, answer, before ?? last);
    axis.replaceChildren(...ticks(...answer.span, 6).map(({ at, text }) => make("span", { style: `left:${X.to(at)}%` }, text)), make("i", {}, answer.unit));
    const rows = answer.rows.map(row => rowShown(kept(groups, row.name, () => rowOf(v, row.name)), X, row));
    open.show(answer.opened, rows);
    arrange(list, rows.map(row => row.node));
  };
  return { parts: [make("div", { class: "kit-board-hands" }, ...controls), make("div", { class: "kit-board" }, over.node, means, axis, list)], show };
}) };

function kept(nodes, key, build) {
  if (!nodes.has(key)) nodes.set(key, build());
  return nodes.get(key);
}

function trackOf(kind) {
  const bar = make("span", { class: "kit-board-bar" }), dot = make("span", { class: "kit-board-dot" });
  return { bar, dot, node: make("div", { class: `kit-board-track ${kind}`, "aria-hidden": "true" }, bar, dot) };
}

function placed({ bar, dot, node }, X, { value, low, high }) { // what lies beyond the board's edge ends there as an arrow
  const left = low === null ? 0 : X.to(low), right = high === null ? 100 : X.to(high), middle = X.to(value);
  bar.hidden = low === null && high === null;
  bar.style.left = `${between(left, 0, 100)}%`;
  bar.style.width = `${between(right, 0, 100) - between(left, 0, 100)}%`;
  dot.style.left = `${between(middle, 0, 100)}%`;
  dot.hidden = value === null || middle < 0 || middle > 100;
  node.classList.toggle("kit-board-lower", !bar.hidden && left < 0);
  node.classList.toggle("kit-board-higher", !bar.hidden && right > 100);
}

function meanOf() {
  const name = make("b"), track = trackOf("kit-board-mean"), words = make("span", { class: "kit-board-words" });
  return { name, track, words, node: make("div", { class: "kit-board-row" }, name, track.node, words) };
}

function meanShown({ name, track, words, node }, X, mean) {
  change(node, { class: `kit-board-row kit-board-of-${mean.key}` });
  say(name, mean.name);
  say(words, mean.words);
  placed(track, X, mean);
  return node;
}

function overOf() {
  const band = make("div", { class: "kit-board-band" }), ghost = make("div", { class: "kit-board-ghost" }), name = make("span");
  const truth = make("div", { class: "kit-board-truth" }, name);
  return { band, ghost, truth, name, node: make("div", { class: "kit-board-over", role: "img" }, ghost, band, truth) };
}

function overShown({ band, ghost, truth, name }, X, answer, before) {
  for (const [node, ends] of [[band, answer.means[0]], [ghost, before]]) {
    node.hidden = !ends || ends.low === null;
    if (node.hidden) continue;
    const [left, right] = [ends.low, ends.high].map(end => between(X.to(end), 0, 100));
    node.style.left = `${left}%`;
    node.style.width = `${right - left}%`;
  }
  truth.hidden = !answer.truth;
  if (answer.truth) { truth.style.left = `${X.to(answer.truth.at)}%`; say(name, answer.truth.words); }
}

function rowOf(v, name) {
  const track = trackOf(""), words = make("span", { class: "kit-board-words" }), fact = make("span", { class: "kit-board-fact" });
  const tick = make("input", { type: "checkbox", "aria-label": `${name} counts` }), why = make("input", { type: "text", maxlength: 200 });
  const press = button(name, { class: "kit-board-name", "aria-expanded": "false" }, () => { v.begin(); v.set({ opened: v.values.opened === name ? "" : name }); });
  const reason = make("label", { class: "kit-board-why" }, make("span", {}, `${name} is left out because`), why);
  const head = make("div", { class: "kit-board-row" }, make("span", { class: "kit-board-who" }, make("label", { class: "kit-board-tick" }, tick), press, fact), track.node, words);
  const put = text => {
    const { [name]: old, ...others } = v.values.left_out;
    v.set({ left_out: text === null ? others : { ...others, [name]: text } });
  };
  tick.addEventListener("change", () => { v.begin(); put(tick.checked ? null : why.value); });
  let timer = 0;
  const write = () => { clearTimeout(timer); timer = 0; if (name in v.values.left_out && v.values.left_out[name] !== why.value) put(why.value); };
  why.addEventListener("input", () => { clearTimeout(timer); timer = setTimeout(write, PAUSE_MS); });
  why.addEventListener("change", write);
  v.follow(values => {
    tick.checked = !(name in values.left_out);
    change(press, { "aria-expanded": String(values.opened === name) });
  });
  return { name, track, words, fact, why, reason, waits: () => timer, node: make("li", {}, head, reason) };
}

function rowShown(row, X, shown) {
  const { track, words, fact, why, reason, node } = row;
  change(node, { class: `kit-board-group${shown.out ? " kit-board-out" : ""}${shown.far ? " kit-board-far" : ""}${shown.holds ? "" : " kit-board-misses"}` });
  placed(track, X, shown);
  say(words, shown.words);
  say(fact, [shown.fact, shown.far ? "far off" : ""].filter(Boolean).join(", "));
  reason.hidden = !shown.out;
  if (document.activeElement !== why && !row.waits()) why.value = shown.why || why.value;
  track.node.querySelectorAll(".kit-board-run").forEach(each => each.remove());
  const inside = shown.runs.filter(run => between(run.at, X.low, X.high) === run.at);
  track.node.append(...inside.map(run => make("span", { class: `kit-board-run${run.turned ? " kit-board-turned" : ""}`, style: `left:${X.to(run.at)}%` })));
  return row;
}

function openedOf(v) { // the runs of one group, below its row
  const note = make("p"), swaps = make("div"), ticks = new Map(), own = "turned" in v.grips, mouth = mouthOf(v);
  const title = `treated minus control, ${v.model.get("answer").unit}`;
  const course = plot(v, { x: { title: "minutes", low: 0, high: 22 }, y: { title, low: 0, high: 3 }, height: 170 });
  const node = make("div", { class: "kit-board-opened" }, note, course.node, swaps, "mouths" in v.grips ? mouth.node : "");
  const tickOf = name => { // of a run of one's own class: had its vessels changed places?
    const tick = make("input", { type: "checkbox" });
    tick.addEventListener("change", () => {
      const { [name]: old, ...others } = v.values.turned;
      v.set({ turned: tick.checked ? { ...others, [name]: "" } : others });
    });
    return { tick, node: make("label", { class: "kit-board-swap" }, tick, `${name}: its vessels had changed places`) };
  };
  let name = "";
  function show(opened, rows) {
    const row = opened && rows.find(each => each.name === opened.name);
    if (!row) return node.remove();
    if (node.parentNode !== row.node) row.node.append(node);
    if (name !== opened.name) course.forget(); // the run of another group is no "before" of this one
    name = opened.name;
    say(note, opened.note);
    mouth.show(opened);
    const asked = own ? opened.runs.map(run => ({ ...kept(ticks, run.name, () => tickOf(run.name)), ...run })) : [];
    asked.forEach(({ tick, turned }) => { tick.checked = turned; });
    const nodes = asked.map(each => each.node), there = [...swaps.children];
    if (there.length !== nodes.length || there.some((each, i) => each !== nodes[i])) swaps.replaceChildren(...nodes); // else one keeps the focus
    course.show(opened);
    change(course.node.querySelector("canvas"), { "aria-label": opened.words });
  }
  return { show };
}

function mouthOf(v) { // how wide the mouths of the group that is open are, so that the rows can stand by them
  const box = make("input", { type: "text", inputmode: "decimal", maxlength: 8 }), words = make("span");
  let name = "", timer = 0;
  const put = () => {
    clearTimeout(timer); timer = 0;
    const { [name]: old, ...others } = v.values.mouths;
    if ((old ?? "") !== box.value) v.set({ mouths: box.value ? { ...others, [name]: box.value } : others });
  };
  box.addEventListener("input", () => { clearTimeout(timer); timer = setTimeout(put, PAUSE_MS); });
  box.addEventListener("change", put);
  const show = opened => {
    if (opened.name === name && (timer || document.activeElement === box)) return;
    if (timer) put();
    name = opened.name;
    say(words, `mouths of ${name}, in cm`);
    box.value = opened.mouth;
  };
  return { node: make("label", { class: "kit-board-swap" }, words, box), show };
}

function arrange(list, nodes) { // in their order, and seen to move there
  const tops = new Map([...list.children].map(each => [each, each.offsetTop])), calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
  [...list.children].filter(each => !nodes.includes(each)).forEach(each => each.remove());
  nodes.forEach((each, i) => { if (list.children[i] !== each) list.insertBefore(each, list.children[i] ?? null); });
  for (const each of calm ? [] : nodes) {
    const moved = tops.has(each) ? tops.get(each) - each.offsetTop : 0;
    if (moved) each.animate([{ transform: `translateY(${moved}px)` }, { transform: "none" }], { duration: MOVE_MS, easing: "ease-out" });
  }
}
