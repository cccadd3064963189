// Lesson 10: two vessels cut open, a gas in layers in one of them; arrows at their mouths as wide as what changes places there.

import { drawing } from "../shared/drawing/drawing.js";
import { change, say } from "../shared/page/elements.js";
import { plot } from "../shared/drawing/plot.js";
import { vesselOf } from "../shared/drawing/vessel.js";
import { viewOf } from "../shared/view/view.js";

const LEFTS = [206, 30], WIDE = 120, FLOOR = 212, CM = 7.2, DEPTH_CM = 19, TOP = FLOOR - CM * DEPTH_CM; // of the drawing: gas on the right, air on the left
const FLOW_WIDE = 0.16, THINNEST = 0.8, REACH = 30, HEAD = 9; // units for a mL a second; of an arrow

export default { render: viewOf(v => {
  const picture = drawing(v, 360, 242), vessels = LEFTS.map(left => vesselOf(picture, { left, wide: WIDE, floor: FLOOR, cm: CM }));
  const arrows = LEFTS.map(left => arrowsOf(picture, left + WIDE / 2));
  const names = LEFTS.map(left => picture.shape("text", { x: left + WIDE / 2, y: FLOOR + 22, "text-anchor": "middle" }));
  const minutes = { title: "minutes after the gas came in", low: 0, high: v.grips.clock.high };
  const time = plot(v, { x: minutes, y: { title: "°C above the room", low: 0, high: 10 }, grips: 1 });
  const middle = LEFTS[0] + WIDE / 2, half = WIDE / 20; // of a cm
  picture.hand("mouth_cm", cm => [middle + half * cm, TOP], x => (x - middle) / half, { label: [28, -38, "end"] });
  time.upright("clock");
  v.follow(({ mouth_cm }) => {
    vessels.forEach(each => each.fit({ depth_cm: DEPTH_CM, mouth_cm }));
    arrows.forEach(each => each.fit(mouth_cm * half));
  });
  const show = ({ layers, flows, names: told, lines, dots, bands }) => {
    vessels[0].shade(layers);
    arrows.forEach((each, i) => each.flow(flows[i]));
    names.forEach((each, i) => say(each, told[i]));
    time.show({ lines, dots, bands: bands.map(band => ({ ...band, look: "control" })) });
  };
  return { parts: [picture.node, time.node], show };
}) };

// Warm air out on the left of a mouth, room air in on its right.
function arrowsOf({ shape }, middle) {
  const out = shape("path", { class: "kit-inside-out" }), into = shape("path", { class: "kit-inside-in" });
  let apart = 0, thick = 0;
  const draw = () => {
    change(out, { d: arrow(middle - apart, TOP + REACH, TOP - REACH, thick) });
    change(into, { d: arrow(middle + apart, TOP - REACH, TOP + REACH, thick) });
  };
  return { fit: half => { apart = half / 2; draw(); }, flow: ml => { thick = Math.max(THINNEST, FLOW_WIDE * ml); draw(); } };
}

function arrow(x, from, to, thick) { // a shaft as thick as its flow, and a head
  const head = HEAD * Math.sign(from - to), half = thick / 2;
  return `M${x - half},${from} V${to + head} H${x - half - 4} L${x},${to} L${x + half + 4},${to + head} H${x + half} V${from} Z`;
}
