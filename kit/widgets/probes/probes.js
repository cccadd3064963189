// Lesson 03: two probes in one beaker with what they show; below, the difference in a run and its effect beside that of good probes.

import { drawing } from "../shared/drawing/drawing.js";
import { say } from "../shared/page/elements.js";
import { plot } from "../shared/drawing/plot.js";
import { viewOf } from "../shared/view/view.js";

export default { render: viewOf(v => {
  const picture = drawing(v, 330, 210), beaker = beakerOf(picture);
  const record = plot(v, { x: { title: "time (min)", low: 0, high: 22 }, y: { title: "treated minus control, °C", low: -2, high: 4 }, height: 150 });
  const effect = plot(v, { x: { title: "the effect, with its range", low: 0, high: 1, ticks: [] }, y: { title: "°C", low: 0, high: 2 }, height: 110 });
  const show = answer => {
    beaker.show(answer);
    record.show({ lines: [answer.line], bands: answer.stretches.map(each => ({ ...each, look: "control" })), span: spanOf(answer.line.y) });
    effect.show(answer.effect);
  };
  return { parts: [picture.node, record.node, effect.node], show };
}) };

const spanOf = values => [Math.floor(Math.min(...values) - 0.5), Math.ceil(Math.max(...values) + 0.5)];

function beakerOf({ shape }) {
  const beams = [100, 230].map(x => shape("path", { class: "kit-probes-beam", d: `M165,46 L${x - 16},152 H${x + 16} Z` }));
  shape("circle", { class: "kit-probes-lamp", cx: 165, cy: 44, r: 9 });
  say(shape("text", { x: 165, y: 18, "text-anchor": "middle" }), "lamp");
  shape("path", { class: "kit-probes-air", d: "M50,92 V196 H280 V92 Z" });
  shape("path", { class: "kit-probes-glass", d: "M50,80 V196 H280 V80" });
  const probes = [["treated", 100], ["control", 230]].map(([name, x]) => probeOf(shape, name, x));
  return { show({ shown, lit }) {
    probes.forEach((text, i) => say(text, shown[i]));
    beams.forEach((beam, i) => { beam.style.display = lit[i] ? "" : "none"; });
  } };
}

function probeOf(shape, name, x) {
  shape("line", { class: `kit-probes-wire kit-probes-${name}`, x1: x, x2: x, y1: 62, y2: 150 });
  shape("circle", { class: `kit-probes-${name}`, cx: x, cy: 152, r: 7 });
  shape("rect", { class: "kit-probes-box", x: x - 46, y: 26, width: 92, height: 36, rx: 6 });
  const text = shape("text", { x, y: 50, "text-anchor": "middle" });
  say(shape("text", { x, y: 18, "text-anchor": "middle" }), name);
  return text;
}
