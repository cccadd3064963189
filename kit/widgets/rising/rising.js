// Lesson 07: readings, the curve laid by hand, and the rise with its range where the record ends. All numbers are Python's.

import { plot } from "../shared/drawing/plot.js";
import { viewOf } from "../shared/view/view.js";

export default { render: viewOf(v => {
  const picture = plot(v, {
    x: { title: "minutes after the gas", low: 0, high: v.grips.end.high }, y: { title: "change of the difference, °C", low: -0.5, high: 3 }, height: 260, grips: 1,
  });
  picture.upright("end");
  const show = ({ lines, dots, stretch }) => picture.show({ lines, dots, bands: [{ ...stretch, look: "gas" }] });
  return { parts: [picture.node], show };
}) };
