// Lesson 01: a vessel under a lamp. Arrows and bars are as wide as the watts that Python answers; the curve is Python's.

import { drawing } from "../shared/drawing/drawing.js";
import { say } from "../shared/page/elements.js";
import { plot } from "../shared/drawing/plot.js";
import { viewOf } from "../shared/view/view.js";

const MIDDLE = 165, HALF = 60, FLOOR = 232, RIM = 92, NECK = 62; // of the drawing: the widest mouth is as wide as the inside
const MM = 7, LAMP = 48, DIMMEST = 214, WATT_UP = 20; // units for a mm of glass, a watt of the lamp's grip
const WATT_WIDE = 30, BARS = 268; // units for a watt of a bar; where the bars begin
const LEAST = 0.005; // W: less is no way out that an arrow should show

export default { render: viewOf(v => {
  const CM = 2 * HALF / v.grips.mouth_cm.high, picture = drawing(v, 345, 330), vessel = vesselOf(picture, CM), bars = barsOf(picture);
  const curve = plot(v, { x: { title: "minutes since the lamp went on", low: 0, high: v.grips.minute.high }, y: { title: "°C above the room", low: 0, high: 20 }, grips: 1 });
  handles(picture, v.grips, CM);
  curve.upright("minute");
  v.follow(vessel.fit);
  const show = (answer, values) => {
    vessel.warm(answer);
    bars.show(answer.watts);
    curve.show({ lines: [answer.line], levels: [{ y: answer.level_k, name: "level", along: 0.3 }], dots: [{ x: values.minute, y: answer.gas_k }] });
  };
  return { parts: [picture.node, curve.node], show };
}) };

function handles({ hand }, { lamp_w, glass_mm }, CM) {
  hand("lamp_w", w => [LAMP, DIMMEST - WATT_UP * (w - lamp_w.low)], (_, y) => lamp_w.low + (DIMMEST - y) / WATT_UP, { upright: true });
  hand("mouth_cm", cm => [MIDDLE + CM * cm / 2, NECK], x => 2 * (x - MIDDLE) / CM, { label: [22, -8, "start"] });
  hand("glass_mm", mm => [MIDDLE + HALF + MM * mm + 18, 160], x => (x - MIDDLE - HALF - 18) / MM, { label: [-16, 32, "start"] });
}

function vesselOf({ shape }, CM) {
  const beam = shape("path", { class: "kit-energy-beam" }), inside = shape("path", { class: "kit-energy-air" }), glass = shape("path", { class: "kit-energy-glass" });
  const wall = shape("path", { class: "kit-energy-out" }), mouth = shape("path", { class: "kit-energy-out kit-energy-mouth" });
  const fit = ({ lamp_w, mouth_cm, glass_mm }) => {
    const open = CM * mouth_cm / 2, thick = MM * glass_mm, y = DIMMEST - WATT_UP * (lamp_w - 1);
    const half = side => `${MIDDLE + side * (HALF + thick / 2)}`;
    beam.setAttribute("d", `M${LAMP + 16},${y - 6} L${MIDDLE - HALF},${RIM + 20} V${FLOOR - 20} L${LAMP + 16},${y + 6} Z`);
    beam.style.opacity = 0.1 + 0.06 * lamp_w;
    inside.setAttribute("d", `M${MIDDLE - HALF},${FLOOR} V${RIM} L${MIDDLE - open},${NECK} H${MIDDLE + open} L${MIDDLE + HALF},${RIM} V${FLOOR} Z`);
    glass.setAttribute("d", `M${MIDDLE - open},${NECK} L${half(-1)},${RIM} V${FLOOR} H${half(1)} V${RIM} L${MIDDLE + open},${NECK}`);
    glass.style.strokeWidth = thick;
  };
  const warm = ({ watts, gas_k }) => {
    inside.style.fillOpacity = Math.min(0.9, gas_k / 20);
    arrow(wall, MIDDLE + HALF - 14, 208, 62, 0, watts.wall[0]);
    arrow(mouth, MIDDLE - 10, NECK + 22, 0, -54, watts.mouth[0]);
  };
  return { fit, warm };
}

function arrow(path, x, y, across, up, watts) { // as wide as its watts
  const head = 9 * (Math.sign(across) || Math.sign(up)), sideways = across ? `l${-head},-7 m${head},7 l${-head},7` : `l-7,${-head} m7,${head} l7,${-head}`;
  path.setAttribute("d", `M${x},${y} l${across},${up} ${sideways}`);
  path.style.strokeWidth = Math.max(0.8, 1.6 * watts);
  path.style.visibility = watts < LEAST ? "hidden" : "";
}

function barsOf({ shape }) {
  const row = i => ({ text: shape("text", { x: 4, y: BARS + 26 * i }), y: BARS - 13 + 26 * i });
  const rows = [row(0), row(1)], bar = (i, name) => shape("rect", { class: `kit-energy-bar kit-energy-${name}`, y: rows[i].y, height: 17 });
  const rects = { in: bar(0, "in"), wall: bar(1, "wall"), mouth: bar(1, "neck") }, note = shape("text", { x: 84, y: BARS + 50 });
  return { show(watts) {
    let at = 84;
    for (const [name, x] of [["in", at], ["wall", at], ["mouth", at + WATT_WIDE * watts.wall[0]]]) {
      rects[name].setAttribute("x", x);
      rects[name].setAttribute("width", WATT_WIDE * watts[name][0]);
    }
    say(rows[0].text, `in ${watts.in[1]}`);
    say(rows[1].text, `out ${watts.out[1]}`);
    say(note, `wall ${watts.wall[1]}, mouth ${watts.mouth[1]}`);
  } };
}
