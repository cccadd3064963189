// Lesson 06: a hundred ranges drop on the truth, one bar for each group. Python says which hold it; those that miss are bold and have a foot.

import { change, say } from "../shared/page/elements.js";
import { drawing } from "../shared/drawing/drawing.js";
import { between, degrees, scale, ticksAlong } from "../shared/drawing/scales.js";
import { viewOf } from "../shared/view/view.js";

const WIDE = 640, HIGH = 342, LEFT = 44, TOP = 40, FOOT = 300, NEXT_MS = 12;

export default { render: viewOf(v => {
  const picture = drawing(v, WIDE, HIGH), { shape } = picture;
  picture.node.classList.add("kit-repeats");
  const count = shape("text", { class: "kit-repeats-count", x: LEFT, y: 24 });
  say(shape("text", { x: 4, y: 24 }), v.unit);
  const axis = shape("g"), bars = shape("g"), truth = shape("line", { class: "kit-repeats-truth", x1: LEFT, x2: WIDE });
  const name = shape("text", { x: WIDE - 2, y: HIGH - 8, "text-anchor": "end" });
  say(shape("text", { x: LEFT, y: HIGH - 8 }), "one bar for each group");
  const show = answer => {
    const Y = Object.assign(scale(...answer.span, FOOT, TOP), { turned: degrees(v.unit) }), gap = (WIDE - LEFT) / answer.bars.length;
    if (!axis.childNodes.length) drawAxis(shape, axis, Y);
    answer.bars.forEach((ends, i) => {
      const group = bars.childNodes[i] ?? barOf(shape, bars, i), [low, high] = ends.map(end => Y.to(between(end, ...answer.span)));
      const x = LEFT + gap * (i + 0.5);
      change(group, { class: answer.hold[i] ? "kit-repeats-bar" : "kit-repeats-bar kit-repeats-miss" });
      change(group.firstChild, { x1: x, x2: x, y1: low, y2: high });
      change(group.lastChild, { d: `M${x - 4},${FOOT + 9} l4,-8 l4,8 Z` });
    });
    change(truth, { y1: Y.to(answer.truth), y2: Y.to(answer.truth) });
    say(name, answer.line);
    say(count, answer.count);
  };
  return { parts: [picture.node], show };
}) };

function barOf(shape, parent, i) {
  const group = shape("g", { style: `animation-delay:${NEXT_MS * i}ms` }, parent);
  shape("line", {}, group);
  shape("path", {}, group);
  return group;
}

function drawAxis(shape, axis, Y) {
  for (const { at, text } of ticksAlong(Y, 5)) {
    shape("line", { class: "kit-repeats-grid", x1: LEFT, x2: WIDE, y1: Y.to(at), y2: Y.to(at) }, axis);
    say(shape("text", { x: LEFT - 6, y: Y.to(at) + 5, "text-anchor": "end" }, axis), text);
  }
}
