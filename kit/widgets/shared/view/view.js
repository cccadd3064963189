// A lesson's view: something moves under the learner's hand, Python answers with a sentence, numbers, what to draw and a table.
// A lesson brings `compose(v)`, which makes its own picture and gives { parts, show }: elements, and how they show an answer.

import { choiceOf } from "../page/choice.js";
import { button, figures, fold, keepKeys, make, say, table } from "../page/elements.js";
import { SILENT, lineTo, newName } from "../line.js";
import { MINUS, between } from "../drawing/scales.js";
import { slider } from "../page/slider.js";

const SPEAK = 400; // milliseconds a hand must rest before the sentence is spoken

export const viewOf = compose => ({ model, el }) => {
  const ended = new AbortController(), frame = frameOf(model), v = handsOn(model, ended.signal, frame);
  const { parts, show = () => {} } = compose(v);
  frame.parts.append(...parts);
  frame.controls.append(...Object.keys(v.grips).filter(name => !v.held.has(name)).map(name => controlOf(v, name)));
  const heard = () => {
    v.hear();
    shown(frame, model.get("answer"), answer => show(answer, v.values));
    if (v.asking()) clearTimeout(frame.speaking); // the hand has gone on, and a newer answer is on its way
  };
  model.on("change:answer", heard);
  keepKeys(frame.root, ended.signal);
  el.append(frame.root);
  heard();
  clearTimeout(frame.speaking); // what stands there when the view opens is not news
  return () => { ended.abort(); clearTimeout(frame.speaking); model.off("change:answer", heard); };
};

function frameOf(model) {
  const id = newName(), help = make("p", { id: `${id}-help`, class: "kit-quiet" }, model.get("help"));
  const frame = {
    parts: make("div", { class: "kit-parts" }), controls: make("div", { class: "kit-controls" }), numbers: make("div"), rows: make("div"),
    sentence: make("p", { class: "kit-sentence" }), trouble: make("p", { class: "kit-trouble" }), status: make("p", { role: "status", class: "kit-unseen" }),
    again: button("Start again", { class: "kit-button" }),
  };
  frame.root = make("div", { class: "kit-view", role: "group", tabindex: "-1", "aria-label": model.get("title"), "aria-describedby": help.id },
    make("p", { class: "kit-title" }, model.get("title")), help, frame.parts, frame.controls, frame.trouble, frame.numbers, frame.sentence, frame.status,
    make("div", { class: "kit-row" }, frame.again), fold("As a table", frame.rows));
  return frame;
}

// The values as the hand has them: they move in the same frame, and Python hears of the newest. Owner of everything in `v`.
function handsOn(model, life, frame) {
  const grips = Object.fromEntries(model.get("grips").map(each => [each.name, each])), following = [], beginning = [];
  const v = { model, life, root: frame.root, unit: model.get("unit"), grips, values: model.get("values"), held: new Set() };
  const line = lineTo(model, newName(), () => say(frame.trouble, SILENT)), put = values => {
    v.values = values;
    following.forEach(each => each(values));
  };
  v.follow = heard => { following.push(heard); heard(v.values); };
  v.onBegin = heard => beginning.push(heard);
  v.begin = () => beginning.forEach(each => each());
  v.told = name => said(grips[name], v.values[name]);
  v.set = changes => {
    const next = { ...v.values, ...changes };
    if (Object.keys(next).every(name => next[name] === v.values[name])) return;
    put(next);
    clearTimeout(frame.speaking);
    line.ask({ values: next });
  };
  v.asking = () => !line.free;
  v.move = (name, value) => v.set({ [name]: snapped(grips[name], value) });
  v.hear = () => {
    line.heard(model.get("answer").to);
    if (line.free) put(model.get("values")); // nothing under way here: Python, or another view, may have moved them
  };
  frame.again.addEventListener("click", () => { v.begin(); v.set(Object.fromEntries(Object.values(grips).map(each => [each.name, each.start]))); });
  life.addEventListener("abort", () => line.close());
  return v;
}

function shown(frame, answer, show) {
  say(frame.trouble, answer.trouble ?? "");
  frame.root.classList.toggle("kit-old", Boolean(answer.trouble)); // what stands there then is of earlier values
  if (!answer.trouble) {
    say(frame.sentence, answer.sentence);
    frame.numbers.replaceChildren(figures(answer.numbers ?? []));
    frame.rows.replaceChildren(answer.table ? table(answer.table.caption, answer.table.head, answer.table.rows) : "");
    for (const picture of frame.parts.querySelectorAll("[role=img]")) picture.setAttribute("aria-label", answer.picture ?? answer.sentence);
    show(answer);
  }
  clearTimeout(frame.speaking);
  frame.speaking = setTimeout(() => say(frame.status, answer.trouble || answer.sentence), SPEAK);
}

export function controlOf(v, name) { // a slider or radio buttons; a view that wants one in its own picture takes it so
  v.held.add(name);
  const spec = v.grips[name];
  if (!spec.options) return slider(v, name);
  const node = choiceOf({ name: `${newName()}-${name}`, legend: spec.label, options: spec.options, across: true });
  node.addEventListener("change", () => { v.begin(); v.set({ [name]: node.read() }); });
  v.follow(values => node.refill(values[name]));
  return node;
}

function said(spec, value) {
  if (spec.options) return spec.options.find(([each]) => each === value)[1];
  return `${(value * (spec.factor ?? 1) + (spec.zero ?? 0)).toFixed(spec.places).replace("-", MINUS)} ${spec.unit}`.trim();
}

function snapped({ low, high, step, places }, value) {
  return Number(between(low + step * Math.round((value - low) / step), low, high).toFixed(places + 3));
}
