// A drawing in SVG that the learner takes hold of. Its picture is hidden from those who listen: the view says it in words.

import { change, draw, say } from "../page/elements.js";
import { gripping } from "../page/grip.js";

const REACH = 27; // so far around its middle a handle can be touched, in units of the drawing

// { node, ink, shape, hand }: `shape(tag, attributes)` adds to the picture, `hand(…)` a handle for one grip.
export function drawing(v, width, height) {
  const node = draw("svg", { class: "kit-drawing", viewBox: `0 0 ${width} ${height}` }), ink = draw("g", { "aria-hidden": "true" }, node);
  const shape = (tag, attributes = {}, parent = ink) => draw(tag, attributes, parent);
  const inside = event => {
    const box = node.getBoundingClientRect();
    return [(event.clientX - box.left) * width / box.width, (event.clientY - box.top) * height / box.height];
  };
  // `place(value)` is where the handle stands, [x, y]; `valueAt(x, y)` the value of a place; its value, and its name unless `named` is false, stand at `label` from it: [x, y, anchor].
  function hand(name, place, valueAt, { upright = false, named = true, label: [x, y, anchor] = [0, 32, "middle"] } = {}) {
    const group = draw("g", { class: "kit-hand" }, node), arrow = "M-7,-4 l-5,4 l5,4 M7,-4 l5,4 l-5,4";
    draw("circle", { class: "kit-reach", r: REACH }, group);
    draw("circle", { class: "kit-dot", r: 15 }, group);
    draw("path", { class: "kit-arrow", d: arrow, transform: upright ? "rotate(90)" : "" }, group);
    const words = shape("text", { class: "kit-label", "text-anchor": anchor });
    gripping(v, name, group, event => valueAt(...inside(event)), { upright });
    v.follow(values => {
      const [across, down] = place(values[name]);
      change(group, { transform: `translate(${across},${down})` });
      change(words, { x: across + x, y: down + y });
      say(words, named ? `${v.grips[name].label} ${v.told(name)}` : v.told(name));
    });
    return group;
  }
  return { node, ink, shape, hand };
}
