// Lesson 02: the vessel cut open, its gas in layers as Python answers them; below it the share over time, with clock, R and limits.

import { drawing } from "../shared/drawing/drawing.js";
import { plot } from "../shared/drawing/plot.js";
import { vesselOf } from "../shared/drawing/vessel.js";
import { viewOf } from "../shared/view/view.js";

const LEFT = 90, WIDE = 120, FLOOR = 262, CM = 7.6, MOUTH_CM = 7; // of the drawing: the inside, units for a cm of depth, and the mouth

export default { render: viewOf(v => {
  const picture = drawing(v, 300, 290), vessel = vesselOf(picture, { left: LEFT, wide: WIDE, floor: FLOOR, cm: CM });
  const time = plot(v, { x: { title: "minutes after the gas came in", low: 0, high: v.grips.clock.high }, y: { title: "CO2 in the vessel, %", low: 0, high: 100 }, grips: 2 });
  picture.hand("depth_cm", cm => [LEFT + WIDE + 24, FLOOR - CM * cm], (_, y) => (FLOOR - y) / CM, { upright: true, label: [62, -26, "end"] });
  time.upright("clock");
  time.upright("read", 1);
  v.follow(({ depth_cm }) => vessel.fit({ depth_cm, mouth_cm: MOUTH_CM }));
  const show = answer => {
    vessel.shade(answer.layers);
    time.show({ lines: [answer.line], bands: answer.bands.map(band => ({ ...band, look: "control" })) });
  };
  return { parts: [picture.node, time.node], show };
}) };
