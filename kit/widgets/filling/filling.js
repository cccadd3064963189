// Lesson 02: the vessel cut open, its gas in layers as Python answers them; below it the share over time, with clock, R and limits.

import { drawing } from "../shared/drawing.js";
import { plot } from "../shared/plot.js";
import { viewOf } from "../shared/view.js";

const LEFT = 90, WIDE = 120, FLOOR = 262, CM = 7.6; // of the drawing: the inside, and units for a cm of depth

export default { render: viewOf(v => {
  const picture = drawing(v, 300, 290), vessel = vesselOf(picture);
  const time = plot(v, { x: { title: "minutes after the gas came in", low: 0, high: v.grips.clock.high }, y: { title: "CO2 in the vessel, %", low: 0, high: 100 }, grips: 2 });
  picture.hand("depth_cm", cm => [LEFT + WIDE + 24, FLOOR - CM * cm], (_, y) => (FLOOR - y) / CM, { upright: true, label: [-8, 32, "middle"] });
  time.upright("clock");
  time.upright("read", 1);
  v.follow(vessel.fit);
  const show = answer => {
    vessel.shade(answer.layers);
    time.show({ lines: [answer.line], bands: answer.bands.map(band => ({ ...band, look: "control" })) });
  };
  return { parts: [picture.node, time.node], show };
}) };

function vesselOf({ shape }) {
  const layers = Array.from({ length: 24 }, () => shape("rect", { class: "kit-filling-gas", x: LEFT, width: WIDE })), glass = shape("path", { class: "kit-filling-glass" });
  let depth = 0, shares = [];
  const draw = () => layers.forEach((layer, i) => {
    const high = CM * depth / layers.length;
    layer.setAttribute("y", FLOOR - high * (i + 1));
    layer.setAttribute("height", high + 0.5);
    layer.style.opacity = shares[i] ?? 0;
  });
  const fit = ({ depth_cm }) => {
    depth = depth_cm;
    const top = FLOOR - CM * depth, rim = Math.min(14, CM * depth / 3);
    glass.setAttribute("d", `M${LEFT + 18},${top} L${LEFT},${top + rim} V${FLOOR} H${LEFT + WIDE} V${top + rim} L${LEFT + WIDE - 18},${top}`);
    draw();
  };
  return { fit, shade: next => { shares = next; draw(); } };
}
